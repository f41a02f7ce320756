"""Which other jobs a verdict can depend on: what one job shows to the others, and what it asks of them.

The checks across jobs look at jobs of the same machine, at who else claims a tray or label, at what is known
of a wrench anywhere, at pieces missed elsewhere, and at whether somebody worked elsewhere between a work and
their own later look at it. All other jobs may be left out of a case.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from ..checks.wrench_not_in_calibration import MOST_USES
from ..state.elements import Wrench
from ..state.job import Job
from ..state.later_look import LaterLook, day_of, days_between, own_looks
from ..state.readiness import pulls_of


@dataclass(frozen=True, slots=True)
class Footprint:
    """What one job shows to others, and what it asks of them, as short texts ("hooks").

    A hook names a machine, a tray or label that the job claims, a person's work on a day, or the job's having
    missed a piece; jobs with a hook in common with what another asks are looked at whole. `wrenches` pairs a
    wrench with all that its job knows of it; of jobs that know the same, one is enough.
    """

    job: str
    shows: frozenset[str] = frozenset()
    asks: frozenset[str] = frozenset()
    wrenches: frozenset[tuple[str, str]] = frozenset()
    pulled_with: frozenset[str] = frozenset()
    is_open: bool = False
    """Neither released nor ended, and no practice."""


MISSED = "misses a piece"


def footprint(job: Job) -> Footprint:
    """Take from a job what ties it to others."""
    return Footprint(
        job=job.name,
        shows=frozenset(_shown(job)),
        asks=frozenset(_asked(job)),
        wrenches=frozenset(
            (w.name, said) for w in job.wrenches.values() if (said := _known_of(w)) and not job.is_practice
        ),
        is_open=job.released is None and job.ended is None and not job.is_practice,
        pulled_with=frozenset(p.entry.wrench or "" for group in job.sets.values() for p in pulls_of(group)),
    )


def _shown(job: Job) -> Iterator[str]:
    if job.is_practice:
        return
    if job.machine:
        yield f"machine {job.machine}"
    held = {name for name, lots in job.ledger.accounts.items() if lots}
    for name in held | job.labels.keys():
        things = [name, *job.labels.get(name, ())]
        if not any(thing in job.containers and job.containers[thing].emptied for thing in things):
            yield f"thing {name}"
    if any(loss.closed is None and loss.written_off is None for loss in job.losses.values()):
        yield MISSED
    for person, moments in job.at_work.items():
        yield from {hands_on_day(person, day_of(moment)) for moment in moments}


def hands_on_day(person: str, day: str) -> str:
    """Write the hook of a person's work on a day in UTC."""
    return f"hands {day} {person}"


def _asked(job: Job) -> Iterator[str]:
    if job.machine:
        yield f"machine {job.machine}"
    used = {name for name, c in job.containers.items() if c.used or c.scanned}
    yield from (f"thing {name}" for name in used | job.labels.keys())
    if any(loss.closed is not None for loss in job.losses.values()):
        yield MISSED
    for _, done, look in own_looks(job):
        if not LaterLook(done.time, look.time).over_night:
            yield from (hands_on_day(look.by, day) for day in days_between(done.time, look.time))


def _known_of(wrench: Wrench) -> str:
    """Write what other jobs may take from a wrench; empty where nothing is known but its name."""
    facts = (wrench.passes, wrench.doubts, wrench.told_due, wrench.uses > MOST_USES)
    return repr(facts) if any(facts) else ""


@dataclass(slots=True)
class Neighbours:
    """The footprints of all jobs, indexed so that a job's relations are found without a walk over all."""

    prints: dict[str, Footprint] = field(default_factory=dict)
    _showing: defaultdict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    _asking: defaultdict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    _pulling: defaultdict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    _knowing: defaultdict[str, defaultdict[str, set[str]]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(set))
    )

    def put(self, new: Footprint) -> frozenset[str]:
        """Take in a footprint in place of the one before; name the jobs whose verdicts may differ now."""
        old = self.prints.get(new.job, Footprint(new.job))
        self._index(old, adding=False)
        self.prints[new.job] = new
        self._index(new, adding=True)
        asking = (self._asking[hook] for hook in old.shows | new.shows)
        changed = {wrench for wrench, _ in old.wrenches ^ new.wrenches}
        pulling = (self._pulling[wrench] for wrench in changed)
        return frozenset({new.job}.union(*asking, *pulling))

    def _index(self, one: Footprint, *, adding: bool) -> None:
        rows = [self._showing[hook] for hook in one.shows] + [self._asking[hook] for hook in one.asks]
        rows += [self._pulling[wrench] for wrench in one.pulled_with]
        rows += [self._knowing[wrench][facts] for wrench, facts in one.wrenches]
        for row in rows:
            row.add(one.job) if adding else row.discard(one.job)

    def of(self, own: Footprint) -> tuple[tuple[str, ...], tuple[tuple[str, str], ...]]:
        """Give the jobs to look at whole, in order, and the facts on its wrenches elsewhere."""
        whole = set().union(*(self._showing.get(hook, ()) for hook in own.asks)) - {own.job}
        facts = {
            (wrench, said)
            for wrench in own.pulled_with
            for said, knowing in self._knowing.get(wrench, {}).items()
            if knowing - {own.job}
        }
        return tuple(sorted(whole)), tuple(sorted(facts))

    def at_work(self, person: str, days: Iterable[str]) -> frozenset[str]:
        """Name the jobs on which somebody worked on one of these days in UTC."""
        return frozenset().union(*(self._showing.get(hands_on_day(person, day), ()) for day in days))

    def witnesses(self, own: Footprint) -> tuple[str, ...]:
        """Name all jobs that a verdict of this one needs: the whole ones, and one for each wrench fact."""
        whole, facts = self.of(own)
        chosen = set(whole)
        for wrench, said in facts:
            knowing = self._knowing[wrench][said] - {own.job}
            if not knowing & chosen:
                chosen.add(min(knowing))
        return tuple(sorted(chosen))


def related(job: Job, others: Iterable[Job]) -> tuple[Job, ...]:
    """Keep of other jobs those that a verdict of this one can depend on, in the order given."""
    known = list(others)
    near = Neighbours()
    for one in (job, *known):
        near.put(footprint(one))
    wanted = set(near.witnesses(footprint(job)))
    return tuple(one for one in known if one.name in wanted)
