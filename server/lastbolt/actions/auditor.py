"""The auditor's questions over all jobs of a shop; only the jobs that can have an answer are read."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ..plan.look_back import Joint, pulled_with
from ..report.auditor import (
    Deferral,
    Later,
    Tightening,
    Unattended,
    Use,
    changed_after_signing,
    decided_on_own_work,
    deferrals,
    who_tightened,
    without_anybody,
    wrench_uses,
)
from ..report.decisions import Weighed
from .ports import Journal
from .require import require_element
from .statistics import JobsWith
from .verify import Bench

TIGHTENING = ("fasteners-tightened", "fasteners-retightened")


@dataclass(frozen=True, slots=True)
class OwnDecision:
    """A word of the lead on a thing that the lead had hands on."""

    job: str
    machine: str
    weighed: Weighed


class Auditor:
    """Answers the questions of practice 6.3."""

    def __init__(self, bench: Bench, journal: Journal, jobs: JobsWith) -> None:
        self._bench, self._journal, self._jobs = bench, journal, jobs

    def tightened(self, job: str, set_name: str, hole: int | None = None) -> tuple[Tightening, ...]:
        """Who tightened this bolt, with which wrench, to what, from which page, and who looked?

        Raises:
            NotFoundError: no such job or set.
        """
        state = self._bench.state(job)
        require_element(state, set_name)
        return who_tightened(state, set_name, hole)

    def wrench(self, wrench: str, *, since: datetime | None, until: datetime | None) -> tuple[Use, ...]:
        """Which jobs used this wrench between these dates? The newest use first."""
        found = [
            use
            for job in self._with_wrench(wrench)
            for use in wrench_uses(
                self._bench.state(job), self._bench.timeline(job), wrench, since=since, until=until
            )
        ]
        return tuple(sorted(found, key=lambda use: use.at, reverse=True))

    def doubtful(self, wrench: str, since: datetime | None = None) -> tuple[Joint, ...]:
        """Which joints stand pulled with this wrench, found out of calibration, the gravest first?"""
        jobs = (self._bench.state(job) for job in self._with_wrench(wrench))
        return pulled_with((job for job in jobs if not job.is_practice), wrench, since=since)

    def deferred(self, now: datetime) -> tuple[Deferral, ...]:
        """Which jobs were released with a deferral, and is any expired? Expired ones first."""
        found = [
            each
            for job, _ in self._jobs.jobs_with("finding-decided", "decision", ["defer"])
            for each in deferrals(self._bench.state(job), self._bench.view(job).verdict, now)
        ]
        return tuple(sorted(found, key=lambda each: (not each.expired, each.settled, each.job, each.subject)))

    def after_signing(self, job: str) -> tuple[Later, ...]:
        """What was changed after sign-off?

        Raises:
            NotFoundError: no entry names that job.
        """
        self._bench.state(job)
        return changed_after_signing(list(self._journal.lines(job)))

    def nobody(self, job: str) -> tuple[Unattended, ...]:
        """Where was the machine without anybody signed on?

        Raises:
            NotFoundError: no entry names that job.
        """
        return without_anybody(self._bench.state(job), self._bench.timeline(job))

    def own_decisions(self, job: str | None = None) -> tuple[OwnDecision, ...]:
        """Which findings were decided by the person who did the work?"""
        jobs = [job] if job else self._jobs.jobs_of("finding-decided")
        return tuple(
            OwnDecision(name, self._bench.state(name).machine, each)
            for name in jobs
            for each in decided_on_own_work(self._bench.state(name), self._bench.view(name).verdict)
        )

    def _with_wrench(self, wrench: str) -> list[str]:
        found = {job for kind in TIGHTENING for job, _ in self._jobs.jobs_with(kind, "wrench", [wrench])}
        return sorted(found)
