"""A container of this job belongs to another job too.

What it finds: a container or label used here that still holds parts of another open job, or is still
    bound to a closed one and was never looked empty.

Why it matters: parts of two machines in one tray end up in one machine.

Example: tray T7 belongs to the job on the next loader.

How to clear it: look into it and record it empty, with a photo; retire the label; or the lead accepts
    the sharing, with separate counts.

Silent when: the container is a place shared by nature, or sharing was recorded on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..label_code import printed
from ..said import said
from ..state.job import Job

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each container or label that another job still claims."""
    job = case.job
    used = {n: c.first or c.last or c.scanned for n, c in job.containers.items() if c.used or c.scanned}
    bound = {label: act for label, things in job.labels.items() for act in things.values()}
    for name, act in (used | bound).items():
        container = job.containers.get(name)
        if container is not None and (container.shared or container.kind == "place" or container.emptied):
            continue
        claim = _claim(case.others, name)
        if claim:
            yield decide(
                name,
                said("{container} is used here and {claim}.", container=printed(name), claim=claim),
                to_do="Look into it, with a photo, and record it empty; or retire its label; or keep counts apart and say so.",
                proof=evidence(act, photos=case.photos_of(name)),
            )


def _claim(others: tuple[Job, ...], name: str) -> str | None:
    for other in others:
        held = sum(other.ledger.balance(thing) for thing in {name, *other.labels.get(name, ())})
        things = [name, *other.labels.get(name, ())]
        known = [other.containers[thing] for thing in things if thing in other.containers]
        emptied = any(container.emptied is not None for container in known)
        bound = name in other.labels
        over = other.released is not None or other.ended is not None
        if not over and not emptied and (held or bound):
            return said("belongs to job {job}, which is open", job=other.name)
        if over and not emptied and (held or bound):
            return said("was never emptied after job {job}", job=other.name)
    return None
