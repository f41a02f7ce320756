"""A photo that was asked for is missing.

What it finds: a touched set, part, connection or opening marked for a photo that has none.

Why it matters: the routing of a hose is forgotten by Monday.

Example: the routing of hose H1.

How to clear it: take it; if it is covered, the lead decides.

Silent when: at level 1 no photo is demanded; one photo an element is enough.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said
from ..state.covering import is_hidden
from ..state.job import Job

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each touched element that owes a photo."""
    job = case.job
    if job.level < 2:
        return
    for name, critical in _wanted(job):
        act = job.touched.get(name)
        kept = [p for p in job.photos_of.get(name, ()) if p not in job.photos or not job.photos[p].rejected]
        if act is None or kept:
            continue
        build = stop if critical and not is_hidden(job, name) else decide
        yield build(
            name,
            said("{name} has no photo, and one was asked for.", name=name),
            to_do="Take it now; if it is covered, the lead writes what is known.",
            proof=evidence(act),
        )


def _wanted(job: Job) -> Iterator[tuple[str, bool]]:
    for group in job.sets.values():
        if group.described and group.described.photo_wanted:
            yield group.name, group.critical
    for connection in job.connections.values():
        if connection.described and connection.described.photo_wanted:
            yield connection.name, connection.described.critical
    for part in job.parts.values():
        if part.described and part.described.photo_wanted:
            yield part.name, False
    for opening in job.openings.values():
        if opening.described and opening.described.photo_wanted:
            yield opening.name, False
