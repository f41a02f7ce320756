"""What somebody at the machine asks: what next, may it turn, what to take over, what rests on this entry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..finding import Finding
from ..journal import Happened
from ..plan.next_step import NextSteps
from ..plan.rests_on import rests_on
from ..report.handover import HandoverSheet, handover_sheet
from ..report.start_guard import StartGuard, start_guard
from ..report.verdict import judge
from ..report.what_next import what_next
from ..state.fold import fold
from .verify import Bench


@dataclass(frozen=True, slots=True)
class Resting:
    """An entry that may be wrong: whether it counts, what rests on it, what the list would say without it."""

    counts: bool
    later: tuple[Happened, ...]
    would_come: tuple[Finding, ...]
    would_go: tuple[Finding, ...]


def next_of(bench: Bench, job: str) -> NextSteps:
    """Say what to do next in a job.

    Raises:
        NotFoundError: no entry names that job.
    """
    return what_next(bench.state(job), bench.related(job))


def guard_of(bench: Bench, job: str) -> StartGuard:
    """Ask what stands against turning or starting the machine of a job now.

    Raises:
        NotFoundError: no entry names that job.
    """
    return start_guard(bench.state(job), bench.related(job))


def handover_of(bench: Bench, job: str) -> HandoverSheet:
    """Write the handover sheet of a job as it stands.

    Raises:
        NotFoundError: no entry names that job.
    """
    view = bench.view(job)
    return handover_sheet(view.job, view.verdict, bench.entries(job))


def resting_on(bench: Bench, job: str, entry: str) -> Resting:
    """Say what rests on an entry, and how the list would change if it did not count; nothing is changed.

    Raises:
        NotFoundError: no entry names that job.
    """
    view, timeline = bench.view(job), bench.timeline(job)
    left = [h for h in timeline if str(h.entry.id) != entry]
    if len(left) == len(timeline):
        return Resting(counts=False, later=(), would_come=(), would_go=())
    other = fold(left, job)
    without = judge(other, bench.beside(other)).findings
    return Resting(
        counts=True,
        later=rests_on(timeline, entry),
        would_come=_beyond(without, view.verdict.findings),
        would_go=_beyond(view.verdict.findings, without),
    )


def _beyond(some: Iterable[Finding], others: Iterable[Finding]) -> tuple[Finding, ...]:
    """Give the findings whose fault is not among the others."""
    known = {finding.key for finding in others}
    return tuple(finding for finding in some if finding.key not in known)
