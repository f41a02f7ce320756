"""Another job is open on this machine, or left something open on it.

What it finds: any other open job with hands on it on the same machine; a job that was released with
    something deferred which nobody has touched since, or with a tag still on; unless it is linked here.

Why it matters: a pump was started because one permit was closed; the other one had its valve out.

Example: job 311 on the same loader.

How to clear it: finish it, or link it and name the debts that are shared.

Silent when: the other job is linked, is washing and paperwork, or is over and left nothing behind.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import Said, joined, said
from ..state.fastener_set import EMPTY, PARKED
from ..state.job import Job

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each other open job on the machine."""
    for other in case.others:
        same = bool(case.job.machine) and other.machine == case.job.machine
        if not same or other.name in case.job.linked_jobs or not (other.opened and other.opened.hands):
            continue
        left = _left_behind(case.job, other)
        over = other.released is not None or other.ended is not None
        if over and not left:
            continue
        still = "Job {job} ({title}) is open on the same machine."
        behind = "Job {job} ({title}) left {things} on the same machine."
        yield stop(
            other.name,
            said(
                behind if over else still,
                job=other.name,
                title=other.opened.title,
                things=joined(", ", left) if left else "",
            ),
            to_do="Finish it, or link it and say which of its open debts matter here.",
            proof=evidence(max(other.touched.values(), default=None)),
        )


def _left_behind(job: Job, other: Job) -> list[Said]:
    """Name what a job that is over deferred, its tags still on, and what it was ended over or opened later.

    What somebody has touched since, here or there, is not its own any more.
    """
    deferred = []
    for (_, subject), decided in other.decisions.items():
        acts = (job.touched.get(subject), other.touched.get(subject))
        touched = any(act is not None and act.time > decided.act.time for act in acts)
        if decided.entry.decision == "defer" and not touched and subject not in deferred:
            deferred.append(subject)
    unpaid = other.ended is not None or other.changed_after_release is not None
    debts = [name for name in _debts(other) if name not in job.touched] if unpaid else []
    tags = [point.name for point in other.isolations.values() if point.applied is not None]
    return (
        [said("{thing} (deferred)", thing=name) for name in deferred]
        + [said("the tag on {thing}", thing=name) for name in tags]
        + [said("{thing} (undone)", thing=name) for name in debts if name not in deferred]
    )


def _debts(other: Job) -> list[str]:
    """Name what is off, empty, apart, open or still in: ending a job pays no debt (practice 2.1)."""
    empty = [group.name for group in other.sets.values() if group.of_reach(EMPTY, PARKED)]
    slack = [g.name for g in other.sets.values() if g.captive_open or any(h.loose for h in g.holes.values())]
    off = [part.name for part in other.parts.values() if not part.on]
    apart = [each.name for each in other.connections.values() if each.apart is not None]
    bare = [each.name for each in other.openings.values() if each.open_since is not None or each.covers > 0]
    inside = [item.name for item in other.items.values() if item.n > 0]
    return list(dict.fromkeys([*off, *empty, *slack, *apart, *bare, *inside]))
