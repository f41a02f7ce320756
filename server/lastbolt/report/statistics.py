"""Statistics that help with the next job: by step and set, never by person (practice 6.3 and 8.8)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from ..journal.evidence import ContainerCounted, PhotoCounted
from ..journal.fasteners import FastenersRemoved
from ..journal.order import Happened
from ..journal.people import SignedOff, StepDone, StepStarted
from ..plan.time_left import GAP_MINUTES
from ..said import said


@dataclass(frozen=True, slots=True)
class StepTime:
    """Minutes of work on a step in this job, and in the last job of that kind; None where it was not done."""

    step: str
    minutes: float
    before: float | None


def step_minutes(happened: Iterable[Happened]) -> dict[str, float]:
    """Give the minutes of work by step, pauses over ten minutes cut to ten; all people together."""
    last: dict[str, datetime] = {}
    doing: dict[str, str] = {}
    spent: dict[str, float] = defaultdict(float)
    for h in happened:
        e, who = h.entry, h.entry.by
        if isinstance(e, StepStarted):
            doing[who] = e.name
        step = e.step or (e.name if isinstance(e, StepStarted | StepDone) else doing.get(who))
        if step and who in last:
            spent[step] += min((h.time - last[who]).total_seconds() / 60, GAP_MINUTES)
        last[who] = h.time
        if isinstance(e, StepDone):
            doing.pop(who, None)
        if isinstance(e, SignedOff):
            last.pop(who, None)
    return {step: minutes for step, minutes in spent.items() if minutes > 0}


def step_times(now: Mapping[str, float], before: Mapping[str, float]) -> tuple[StepTime, ...]:
    """Put the minutes of two jobs side by side, the step with the most minutes first."""
    rows = [StepTime(step, minutes, before.get(step)) for step, minutes in now.items()]
    return tuple(sorted(rows, key=lambda row: (-row.minutes, row.step)))


@dataclass(frozen=True, slots=True)
class Compared:
    """One picture whose count a person's count stands beside: what the reader said, and what was true."""

    job: str
    container: str
    read: int
    low: int
    high: int
    counted: int

    @property
    def is_equal(self) -> bool:
        """Tell whether the reader's count was the person's."""
        return self.read == self.counted

    @property
    def is_within(self) -> bool:
        """Tell whether the person's count lay in the reader's interval."""
        return self.low <= self.counted <= self.high


@dataclass(frozen=True, slots=True)
class ReaderHere:
    """How good the reader is in this shop: pictures compared, equal, within its interval, how far off."""

    compared: int
    equal: int
    within: int
    mean_off: float
    off: tuple[Compared, ...]

    @property
    def sentence(self) -> str:
        """Say it in one sentence.

        >>> ReaderHere(40, 34, 38, 0.2, ()).sentence
        'Of 40 pictures that somebody counted too, the reader had 34 right, 38 within its range.'
        """
        if not self.compared:
            return said("No picture was counted by the reader and by a person too.")
        form = (
            "Of {compared} pictures that somebody counted too, the reader had {equal} right, "
            "{within} within its range."
        )
        return said(form, compared=self.compared, equal=self.equal, within=self.within)


def compared_counts(happened: Iterable[Happened]) -> tuple[Compared, ...]:
    """Pair each picture's count with what people logged of that tray: put in with it, or counted by hand.

    A picture of a tray into which several sets went is compared with all that had been logged by then.
    """
    held: dict[str, int] = defaultdict(int)
    waiting: dict[str, PhotoCounted] = {}
    found: list[Compared] = []
    for h in happened:
        e = h.entry
        if isinstance(e, FastenersRemoved) and e.to:
            held[e.to] += e.bagged if e.bagged is not None else e.n if e.n is not None else len(e.holes)
            if e.to in waiting:
                found.append(_pair(e.job, waiting.pop(e.to), held[e.to]))
        elif isinstance(e, PhotoCounted):
            if held[e.container]:
                found.append(_pair(e.job, e, held[e.container]))
            else:
                waiting[e.container] = e
        elif isinstance(e, ContainerCounted) and e.set is None:
            held[e.container] = e.n
    return tuple(found)


def _pair(job: str, e: PhotoCounted, counted: int) -> Compared:
    low, high = e.interval
    return Compared(job, e.container, e.n, low, high, counted)


def reader_here(pairs: Iterable[Compared]) -> ReaderHere:
    """Sum up how good the reader is here; those that it got wrong come along, the worst first."""
    known = list(pairs)
    off = sorted((p for p in known if not p.is_equal), key=lambda p: -abs(p.read - p.counted))
    mean = sum(abs(p.read - p.counted) for p in known) / len(known) if known else 0.0
    equal, within = sum(p.is_equal for p in known), sum(p.is_within for p in known)
    return ReaderHere(len(known), equal, within, round(mean, 3), tuple(off[:20]))
