"""Statistics of a shop: time by step, what gives trouble, how good the reader of photos is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from ..journal.people import StepStarted
from ..plan.usual_trouble import PastJob, UsualTrouble, past_job, rates, usual_trouble
from ..report.statistics import (
    Compared,
    ReaderHere,
    StepTime,
    compared_counts,
    reader_here,
    step_minutes,
    step_times,
)
from ..report.verdict import live_findings
from .verify import Bench

MOST_PAST = 12
"""So many jobs of the kind are looked at; older ones say little about how the shop works now."""
MOST_PICTURES = 400
LEAST_SHARE = 0.5
"""A job is of the same kind when it shares half of the steps, or of the sets where no steps were named."""


class JobsWith(Protocol):
    """Finds jobs by what their entries name."""

    def jobs_with(self, kind: str, field: str, values: Sequence[str]) -> Sequence[tuple[str, int]]:
        """Give jobs and how many of the values each has, those with the most first."""

    def jobs_of(self, kind: str) -> Sequence[str]:
        """Give the jobs with any entry of a kind."""


@dataclass(frozen=True, slots=True)
class JobStatistics:
    """What a job can learn from those before it; `last` names the one that it is compared with."""

    job: str
    last: str | None
    steps: tuple[StepTime, ...]
    past: tuple[str, ...]
    troubles: tuple[UsualTrouble, ...]
    rare: tuple[UsualTrouble, ...]


class Statistics:
    """Works statistics out; what a past job went through is kept until it changes."""

    def __init__(self, bench: Bench, jobs: JobsWith) -> None:
        self._bench, self._jobs = bench, jobs
        self._past: dict[str, tuple[int, PastJob]] = {}

    def of_job(self, job: str) -> JobStatistics:
        """Compare a job with those of its kind.

        Raises:
            NotFoundError: no entry names that job.
        """
        timeline = self._bench.timeline(job)
        state = self._bench.state(job)
        alike = self._alike(job)
        last = max(alike, key=self._opened, default=None)
        before = step_minutes(self._bench.timeline(last)) if last else {}
        known = [self._past_job(name) for name in alike]
        seen = usual_trouble(known)
        shown = {(t.element, t.check) for t in seen}
        own = state.sets.keys() | state.touched.keys()
        others = (t for t in rates(known) if (t.element, t.check) not in shown and t.element in own)
        return JobStatistics(
            job=job,
            last=last,
            steps=step_times(step_minutes(timeline), before),
            past=tuple(alike),
            troubles=seen,
            rare=tuple(others)[:20],
        )

    def reader(self) -> ReaderHere:
        """Say how good the reader of photos is in this shop."""
        pairs: list[Compared] = []
        for job in self._jobs.jobs_of("photo-counted"):
            if not self._bench.state(job).is_practice:
                pairs += compared_counts(self._bench.timeline(job))
        return reader_here(pairs[-MOST_PICTURES:])

    def _alike(self, job: str) -> list[str]:
        """Name the jobs of the same kind, at most a dozen, the newest of them."""
        entries = self._bench.entries(job)
        steps = sorted({e.name for e in entries if isinstance(e, StepStarted)})
        sets = sorted(self._bench.state(job).sets)
        for kind, field, values in (("step-started", "name", steps), ("fasteners-removed", "set", sets)):
            found = [
                name
                for name, n in self._jobs.jobs_with(kind, field, values)
                if name != job and n >= LEAST_SHARE * len(values) and not self._bench.state(name).is_practice
            ]
            if found:
                return sorted(found, key=self._opened)[-MOST_PAST:]
        return []

    def _opened(self, job: str) -> str:
        opened = self._bench.state(job).opened
        return opened.at.isoformat() if opened else ""

    def _past_job(self, job: str) -> PastJob:
        state = self._bench.state(job)
        kept = self._past.get(job)
        if kept is None or kept[0] != state.entries:
            raised = [finding for _, finding in live_findings(self._bench.entries(job), job)]
            kept = self._past[job] = (state.entries, past_job(state, raised))
        return kept[1]
