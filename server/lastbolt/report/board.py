"""One job as the board shows it: where it stands, what is open, who is on it, what has lain bare longest."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ..finding import Severity
from ..state.job import Job
from .verdict import Verdict


@dataclass(frozen=True, slots=True)
class Bare:
    """An opening with a mouth that nothing covers, and since when."""

    opening: str
    letter: str
    since: datetime


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One job's line: counts of findings; `changed` says that hands were on it after its release."""

    job: str
    machine: str
    title: str
    level: int
    stop: int
    decide: int
    note: int
    not_checked: tuple[str, ...]
    changed: bool
    practice: bool
    opened: datetime | None
    last: datetime | None
    people: tuple[str, ...]
    bare: Bare | None


def board_row(job: Job, verdict: Verdict) -> BoardRow:
    """Sum a judged job up for the board."""
    severities = [finding.severity for finding in verdict.findings]
    return BoardRow(
        job=job.name,
        machine=job.machine,
        title=job.opened.title if job.opened else "",
        level=job.level,
        stop=severities.count(Severity.STOP),
        decide=severities.count(Severity.DECIDE),
        note=severities.count(Severity.NOTE),
        not_checked=tuple(sorted(verdict.not_checked)),
        changed=job.released is not None and job.changed_after_release is not None,
        practice=job.is_practice,
        opened=job.opened.at if job.opened else None,
        last=job.now,
        people=tuple(sorted(job.signed_on)),
        bare=oldest_bare(job),
    )


def oldest_bare(job: Job) -> Bare | None:
    """Give the opening that has been uncovered longest; None where all mouths are covered or shut."""
    found = []
    for opening in job.openings.values():
        if opening.is_bare and opening.open_since is not None:
            running = [since for since, until in opening.bare if until is None]
            found.append(
                Bare(opening.name, opening.letter, running[-1] if running else opening.open_since.time)
            )
    return min(found, key=lambda bare: (bare.since, bare.opening), default=None)
