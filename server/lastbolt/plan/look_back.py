"""Look back over all jobs, released or not: every joint that a bad wrench or an old value stands in (8.9)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from ..state.fastener_set import FastenerSet
from ..state.job import Job
from ..state.readiness import valid_pulls


@dataclass(frozen=True, slots=True)
class Joint:
    """Holes of a set whose tightening is in doubt, why, and whether the machine has gone out with it."""

    job: str
    machine: str
    set: str
    holes: tuple[int, ...]
    pulled: datetime
    why: str
    critical: bool
    released: bool

    @property
    def sentence(self) -> str:
        """Say it in one sentence."""
        gone = "released" if self.released else "still here"
        where = f"{self.machine}, {self.job}" if self.machine else self.job
        numbers = ", ".join(str(number) for number in self.holes)
        return f"{where} ({gone}): {self.set}, hole {numbers}, {self.why}."


def pulled_with(jobs: Iterable[Job], wrench: str, *, since: datetime | None = None) -> tuple[Joint, ...]:
    """List the joints that stand pulled with a wrench since its last good day, the gravest first."""
    found = []
    for job in jobs:
        for group in job.sets.values():
            pulls = [
                (hole.number, pull.act.time)
                for hole, _, pull in valid_pulls(group)
                if pull.entry.wrench == wrench and (since is None or pull.act.time >= since)
            ]
            if pulls:
                found.append(_joint(job, group, pulls, why=f"pulled with {wrench}"))
    return _gravest_first(found)


def pulled_to(jobs: Iterable[Job], group: FastenerSet) -> tuple[Joint, ...]:
    """List the joints that stand pulled to the value of a set, now superseded: same source, same set name.

    A value without a source is nobody else's; a job that has a newer value already is left out.
    """
    old = group.spec
    if old is None or not old.source:
        return ()
    newer = f", superseded by {group.superseded.by_source}" if group.superseded else ""
    why = f"pulled to {old.source}{newer}"
    found = [
        _joint(job, other, pulls, why=why)
        for job in jobs
        for other in _with_source(job, group.name, old.source, old.revision)
        if (pulls := [(hole.number, pull.act.time) for hole, _, pull in valid_pulls(other)])
    ]
    return _gravest_first(found)


def _with_source(job: Job, name: str, source: str, revision: str | None) -> Iterator[FastenerSet]:
    group = job.sets.get(name)
    if group is not None and group.spec and (group.spec.source, group.spec.revision) == (source, revision):
        yield group


def _joint(job: Job, group: FastenerSet, pulls: list[tuple[int, datetime]], *, why: str) -> Joint:
    holes = tuple(sorted({number for number, _ in pulls}))
    newest = max(time for _, time in pulls)
    return Joint(
        job.name,
        job.machine,
        group.name,
        holes,
        newest,
        why,
        critical=group.critical,
        released=job.released is not None,
    )


def _gravest_first(found: Iterable[Joint]) -> tuple[Joint, ...]:
    """Sort: critical sets first, machines that have gone out first, then the newest."""
    return tuple(
        sorted(found, key=lambda j: (not j.critical, not j.released, -j.pulled.timestamp(), j.job, j.set))
    )
