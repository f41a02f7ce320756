"""What stands in the way: findings at each release request and at the end of a journal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any
from uuid import UUID

from .. import checks
from ..finding import Case, Finding, Severity
from ..journal.entries import AnyEntry
from ..journal.order import CORRECTIONS, Happened, effective, in_order
from ..state.fold import apply, fold
from ..state.job import Job

END = "end"


@dataclass(frozen=True, slots=True)
class Verdict:
    """The findings of one job at one moment: `at` is the id of the release request, or "end"."""

    job: str
    at: str
    time: datetime | None
    findings: tuple[Finding, ...]
    not_checked: tuple[str, ...]

    @property
    def is_clear(self) -> bool:
        """Tell whether nothing stops and nothing needs a word."""
        return not any(f.severity in (Severity.STOP, Severity.DECIDE) for f in self.findings)


def verdicts(entries: Iterable[AnyEntry], job_name: str | None = None) -> tuple[Verdict, ...]:
    """Give the verdict at each release request and at the end.

    Entries may come in any order and any number of times, of several jobs: the other jobs are what the checks
    across jobs look at. Without a name the end is that of the job last asked about, else of the last entry.
    """
    timeline = in_order(entries)
    asked = [h for h in timeline if h.entry.kind == "release-asked" and job_name in (None, h.entry.job)]
    last = job_name or (asked[-1].entry.job if asked else timeline[-1].entry.job if timeline else None)
    if last is None:
        return ()
    if not timeline or any(h.entry.kind in CORRECTIONS or h.entry.mode == "late" for h in timeline):
        kept = {h.entry.id for h in effective(timeline)}
        found = [at_moment(timeline, h.entry.job, until=h) for h in asked if h.entry.id in kept]
        return (*found, at_moment(timeline, last))
    return tuple(_walk(timeline, {h.entry.id for h in asked}, last))


def _walk(timeline: Sequence[Happened], asked: set[UUID], last: str) -> Iterator[Verdict]:
    """Fold once and judge on the way: without corrections, what is known at a moment is all before it."""
    jobs: dict[str, Job] = {}
    for h in timeline:
        name = h.entry.job
        if name not in jobs:
            jobs[name] = Job(name)
        apply(jobs[name], h)
        if h.entry.kind == "release-asked" and h.entry.id in asked:
            verdict = _judged(jobs, name, at=h.entry)
            yield verdict
    end = timeline[-1].entry
    yield replace(verdict, at=END) if end.id in asked and end.job == last else _judged(jobs, last)


def _judged(jobs: dict[str, Job], name: str, *, at: AnyEntry | None = None) -> Verdict:
    others = tuple(job for other, job in jobs.items() if other != name)
    return judge(jobs.get(name) or Job(name), others, at=at)


def at_moment(
    timeline: Sequence[Happened], job_name: str, *, until: Happened | None = None, asking: str = "release"
) -> Verdict:
    """Judge one job by what had happened up to a moment and was written down by then, or by all of it."""
    seen = timeline
    if until is not None:
        seen = [h for h in timeline[: timeline.index(until) + 1] if _was_known(h.entry, until.entry)]
    jobs = states(seen)
    job = jobs.pop(job_name, None) or Job(job_name)
    return judge(job, tuple(jobs.values()), at=until.entry if until else None, asking=asking)


def _was_known(entry: AnyEntry, asked: AnyEntry) -> bool:
    """Tell whether an entry was written down when the question came: a late one may come after it."""
    return entry.mode != "late" or entry.at <= asked.at


def judge(
    job: Job, others: tuple[Job, ...], *, at: AnyEntry | None = None, asking: str = "release"
) -> Verdict:
    """Judge a folded job beside the shop's others, as of its last entry."""
    beside = () if job.is_practice else tuple(other for other in others if not other.is_practice)
    case = Case(job, beside, asking=asking, at=job.now)
    return Verdict(job.name, str(at.id) if at else END, job.now, checks.run(case), checks.not_checked(job))


def states(timeline: Iterable[Happened]) -> dict[str, Job]:
    """Fold entries that are in order, job by job."""
    by_job: dict[str, list[Happened]] = {}
    for h in timeline:
        by_job.setdefault(h.entry.job, []).append(h)
    return {name: fold(effective(own), name) for name, own in by_job.items()}


def live_findings(entries: Iterable[AnyEntry], job_name: str) -> list[tuple[AnyEntry, Finding]]:
    """List what each entry of a job brought up that was not there before, in the order they were written.

    A correction or a late entry changes what was there only from the moment when it was written down.
    """
    timeline = in_order(entries)
    place = {h.entry.id: number for number, h in enumerate(timeline)}
    jobs: dict[str, Job] = {}
    raised: list[tuple[AnyEntry, Finding]] = []
    known: set[str] = set()
    seen: dict[str, list[Happened]] = defaultdict(list)
    for h in sorted(timeline, key=lambda h: h.entry.at if h.entry.mode == "late" else h.time):
        own = seen[h.entry.job]
        own.append(h)
        if h.entry.kind in CORRECTIONS or h.entry.mode == "late":
            own.sort(key=lambda one: place[one.entry.id])
            jobs[h.entry.job] = fold(effective(own), h.entry.job)
        else:
            apply(jobs.setdefault(h.entry.job, Job(h.entry.job)), h)
        if h.entry.job != job_name:
            continue
        job = jobs[job_name]
        others = tuple(other for name, other in jobs.items() if name != job_name)
        now = checks.run(Case(job, others, asking="live", just=h.entry, at=job.now))
        raised += [(h.entry, finding) for finding in now if finding.key not in known]
        known = {finding.key for finding in now}
    return raised


def as_json(found: Sequence[Verdict]) -> dict[str, Any]:
    """Give verdicts in the form of `verify --json` and `replay --json`."""
    return {
        "verdicts": [
            {
                "at": verdict.at,
                "job": verdict.job,
                "time": verdict.time.isoformat() if verdict.time else None,
                "findings": [finding_json(f) for f in verdict.findings],
                "not_checked": list(verdict.not_checked),
            }
            for verdict in found
        ]
    }


def finding_json(finding: Finding) -> dict[str, Any]:
    """Give one finding as JSON."""
    return {
        "check": finding.check,
        "severity": finding.severity.value,
        "waivable": finding.waivable,
        "subject": finding.subject,
        "sentence": finding.sentence,
        "evidence": {"entries": list(finding.evidence.entries), "photos": list(finding.evidence.photos)},
        "to_do": finding.to_do,
        "key": finding.key,
        "holes": list(finding.holes),
    }
