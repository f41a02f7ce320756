"""A plan made of past jobs, how a new job differs from it, what gives trouble, how long refitting takes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..plan.from_past_job import Plan, differences, plan_from
from ..plan.time_left import Ratio, Work, learned, observed
from ..plan.usual_trouble import past_job, usual_trouble
from ..report.verdict import live_findings
from ..state.job import Job
from .verify import Bench


def plan_of(bench: Bench, past: Sequence[str], *, name: str) -> Plan:
    """Make a plan of one or more past jobs; confirmations are never copied.

    Raises:
        NotFoundError: no entry names one of the jobs.
    """
    return plan_from([bench.state(job) for job in past], name=name)


def compared(bench: Bench, plan: Plan, job: str) -> Iterator[str]:
    """Say where a job differs from a plan as found; nothing where it does not."""
    return (difference.sentence for difference in differences(plan, bench.state(job)))


def troubles(bench: Bench, past: Sequence[str]) -> Iterator[str]:
    """Say which steps of past jobs often went wrong, near misses counted."""
    known = [
        past_job(bench.state(job), [finding for _, finding in live_findings(bench.entries(job), job)])
        for job in past
    ]
    return (trouble.sentence for trouble in usual_trouble(known))


def own_ratios(bench: Bench, jobs: Iterable[Job]) -> Mapping[Work, Ratio]:
    """Give the shop's own ratios of putting back to taking apart, from those jobs that were released."""
    seen: defaultdict[Work, list[float]] = defaultdict(list)
    for job in jobs:
        if job.released is not None:
            for work, ratios in observed(job, bench.timeline(job.name)).items():
                seen[work] += ratios
    return learned(seen)
