"""How long the rest may take, from what taking apart took: a spread, never a promise (practice 8.3)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from math import exp, log, sqrt
from typing import NamedTuple

from ..journal.order import Happened
from ..state.fold import DISTURBING, RESTORING, SUBJECTS_OF
from ..state.job import Job
from .order_list import order_list
from .step import open_steps

GAP_MINUTES = 10.0
"""A pause counts as at most this long: coffee is no work."""
PRIOR_JOBS = 8
"""How many observations the starting ratio weighs; a guess, to be tuned."""
START_SPREAD = 0.5
"""Standard deviation of the logarithm of a ratio before the shop has its own; a guess."""
Z80 = 0.8416212335729143
"""The standard normal value below which four of five lie."""


class Work(StrEnum):
    """Kinds of step that differ in how much longer putting back takes than taking off."""

    SEAL = "seal"
    PANEL = "panel"
    OTHER = "other"


class Ratio(NamedTuple):
    """How many times longer putting back takes: the middle, and the spread of its logarithm."""

    middle: float
    spread: float


START = {
    Work.SEAL: Ratio(2.0, START_SPREAD),
    Work.PANEL: Ratio(1.1, START_SPREAD),
    Work.OTHER: Ratio(1.6, START_SPREAD),
}
"""Before the shop has its own: guesses, to be tuned."""


@dataclass(frozen=True, slots=True)
class StepTime:
    """One remaining step: minutes that taking it apart took, and the middle of putting it back."""

    element: str
    work: Work
    apart_minutes: float
    middle_minutes: float


@dataclass(frozen=True, slots=True)
class TimeLeft:
    """Minutes that half and four in five such rests stay under; what is not counted; what it waits for."""

    p50: float
    p80: float
    steps: tuple[StepTime, ...]
    uncounted: tuple[str, ...]
    waits_for: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """Say it in one sentence.

        >>> TimeLeft(80, 110, (), (), ()).sentence
        'As likely as not under 1 h 20 min, four times in five under 1 h 50 min. An estimate.'
        """
        said = f"As likely as not under {hours(self.p50)}, four times in five under {hours(self.p80)}"
        said += f"; not counted: {', '.join(self.uncounted)}" if self.uncounted else ""
        said += f"; waits for {', '.join(self.waits_for)}" if self.waits_for else ""
        return said + ". An estimate."


def hours(minutes: float) -> str:
    """Write minutes as hours and minutes, to five minutes.

    >>> hours(3), hours(81), hours(120)
    ('5 min', '1 h 20 min', '2 h')
    """
    whole = max(5, 5 * round(minutes / 5))
    parts = [f"{whole // 60} h" if whole >= 60 else "", f"{whole % 60} min" if whole % 60 else ""]
    return " ".join(part for part in parts if part)


def active_minutes(timeline: Iterable[Happened], kinds: frozenset[str] = DISTURBING) -> dict[str, float]:
    """Give the minutes of work on each element by entries of these kinds, pauses over ten minutes cut to ten.

    What a person does between two entries on the machine (photos, scans) counts to the second of them.
    """
    last: dict[str, datetime] = {}
    running: dict[str, float] = defaultdict(float)
    spent: dict[str, float] = defaultdict(float)
    for h in timeline:
        who = h.entry.by
        if who in last:
            running[who] += min((h.time - last[who]).total_seconds() / 60, GAP_MINUTES)
        last[who] = h.time
        if h.entry.kind == "signed-off":
            del last[who]
        if h.entry.kind in DISTURBING | RESTORING:
            if h.entry.kind in kinds:
                spent[_element_of(h)] += running[who]
            running[who] = 0.0
    return {element: minutes for element, minutes in spent.items() if element and minutes > 0}


def _element_of(h: Happened) -> str:
    names = (getattr(h.entry, field) for field in SUBJECTS_OF[h.entry.kind])
    return next((name for name in names if isinstance(name, str)), "")


def observed(job: Job, timeline: Sequence[Happened]) -> dict[Work, list[float]]:
    """Give a finished job's ratios: minutes to put each element back over minutes to take it apart."""
    apart, back = active_minutes(timeline), active_minutes(timeline, RESTORING)
    ratios: dict[Work, list[float]] = defaultdict(list)
    for element, minutes in apart.items():
        if element in back:
            ratios[work_of(job, element)].append(back[element] / minutes)
    return dict(ratios)


def learned(ratios: Mapping[Work, Sequence[float]]) -> dict[Work, Ratio]:
    """Give the shop's own ratios: the starting ones count as eight observations (practice 8.3)."""
    return {work: _learned(start, ratios.get(work, ())) for work, start in START.items()}


def _learned(start: Ratio, seen: Sequence[float]) -> Ratio:
    logs = [log(ratio) for ratio in seen if ratio > 0]
    n = PRIOR_JOBS + len(logs)
    middle = (PRIOR_JOBS * log(start.middle) + sum(logs)) / n
    spread = (PRIOR_JOBS * start.spread**2 + sum((seen - middle) ** 2 for seen in logs)) / n
    return Ratio(exp(middle), sqrt(spread))


def work_of(job: Job, element: str) -> Work:
    """Tell what kind of step an element is: with a seal, a panel without a torque value, or other."""
    part = element if element in job.parts else None
    groups = [
        g
        for g in job.sets.values()
        if g.name == element or (part and g.described and g.described.part == part)
    ]
    sealed = any(r.needed and r.needed.under == element for r in job.renewals.values())
    if sealed or element in job.renewals or any(g.described and g.described.gasketed for g in groups):
        return Work.SEAL
    if groups and not any(g.has_value for g in groups):
        return Work.PANEL
    return Work.OTHER


def time_left(job: Job, apart: Mapping[str, float], ratios: Mapping[Work, Ratio] | None = None) -> TimeLeft:
    """Estimate the rest of a job from `apart`, the minutes that each element took to come apart.

    An element without minutes takes those of its description, split by the ratio; with neither it is named as
    not counted. The sum is taken as log-normal with the mean and variance of independent steps (Fenton 1960,
    IRE Trans. Commun. Syst. 8, from memory).
    """
    known = START if ratios is None else ratios
    steps: list[StepTime] = []
    uncounted: list[str] = []
    for element in dict.fromkeys(step.element for step in open_steps(job)):
        ratio = known[work_of(job, element)].middle
        minutes = apart.get(element) or _described(job, element, ratio)
        if minutes:
            steps.append(StepTime(element, work_of(job, element), minutes, minutes * ratio))
        else:
            uncounted.append(element)
    p50, p80 = _sum((s.middle_minutes, known[s.work].spread) for s in steps)
    away = [step.element for step in open_steps(job) if step.waits_for]
    orders = [f"{line.n} x {line.what}" for line in order_list(job)]
    return TimeLeft(p50, p80, tuple(steps), tuple(uncounted), tuple(dict.fromkeys([*away, *orders])))


def _described(job: Job, element: str, ratio: float) -> float | None:
    described = job.parts[element].described if element in job.parts else None
    minutes = described.minutes if described else None
    return minutes / (1 + ratio) if minutes else None


def _sum(steps: Iterable[tuple[float, float]]) -> tuple[float, float]:
    """Give the middle and the four-in-five point of a sum of log-normal times by middle and spread."""
    mean = variance = 0.0
    for middle, spread in steps:
        average = middle * exp(spread**2 / 2)
        mean += average
        variance += average**2 * (exp(spread**2) - 1)
    if not mean:
        return 0.0, 0.0
    square = log(1 + variance / mean**2)
    middle = log(mean) - square / 2
    return exp(middle), exp(middle + Z80 * sqrt(square))
