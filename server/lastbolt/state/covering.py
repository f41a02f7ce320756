"""What a part hides when it goes on, and what was ready by then (practice 2.4)."""

from __future__ import annotations

from collections import defaultdict

from ..journal.machine import AccessSaid
from .elements import Buried
from .fastener_set import Act, FastenerSet, Hole, Reach
from .job import Job

TRUSTED_STRENGTH = 2
"""Only what was said at the machine or in a checked plan may stop a release."""


def routes_to(job: Job, element: str) -> dict[str | None, list[AccessSaid]]:
    """Group the trusted edges over an element by route; hidden only if every route is shut."""
    routes: dict[str | None, list[AccessSaid]] = defaultdict(list)
    for edge in job.access:
        if edge.element == element and edge.strength >= TRUSTED_STRENGTH and not edge.shape_only:
            routes[edge.route].append(edge)
    return dict(routes)


def is_hidden(job: Job, element: str) -> bool:
    """Tell whether every route to an element has a part on it."""
    routes = routes_to(job, element)
    return bool(routes) and all(
        any(edge.part not in job.parts or job.parts[edge.part].on for edge in edges)
        for edges in routes.values()
    )


def is_ready(job: Job, element: str, need: str) -> bool:
    """Tell whether an element has reached a level; what was never touched needs nothing."""
    if element in job.sets:
        return all(
            hole_is_ready(job.sets[element], hole, need) for hole in job.sets[element].holes.values()
        ) and (job.sets[element].captive_open == 0)
    if element in job.connections:
        here = job.connections[element]
        return here.apart is None and (need == "placed" or here.unsure is None)
    if element in job.openings:
        opening = job.openings[element]
        return opening.open_since is None or (need == "looked-at" and opening.looked is not None)
    if element in job.parts:
        return job.parts[element].on
    if element in job.tests:
        return job.tests[element].run is not None and job.tests[element].passed
    return True


def hole_is_ready(group: FastenerSet, hole: Hole, need: str) -> bool:
    """Tell whether one hole has reached a level; below signed work, placed is as far as the record goes."""
    if not hole.touched:
        return True
    if hole.reach < Reach.PLACED or hole.loose is not None:
        return False
    if need == "placed":
        return True
    if need == "snug":
        return hole.reach >= Reach.SNUG or not group.has_value
    stages = range(1, group.stage_count + 1)
    pulled = not group.has_value or all(stage in hole.pulls for stage in stages)
    return hole.reach is Reach.FINAL and hole.undone is None and pulled


def cover(job: Job, part: str, act: Act) -> None:
    """A part goes on: note what it buries before it was ready."""
    for edge in list(job.access):
        if edge.part != part or edge.strength < TRUSTED_STRENGTH or edge.shape_only:
            continue
        need = edge.need if job.level >= 3 else "placed"
        if is_hidden(job, edge.element) and not is_ready(job, edge.element, need):
            job.buried[edge.element] = Buried(edge.element, part, act, edge)
    for edge in job.access:
        if edge.shape_only and edge.part == part and not is_ready(job, edge.element, "placed"):
            job.buried[edge.element] = Buried(edge.element, part, act, edge)


def uncover(job: Job) -> None:
    """A part came off: what can be reached again is not buried any more."""
    for element in [
        name for name in job.buried if not is_hidden(job, name) and not job.buried[name].edge.shape_only
    ]:
        del job.buried[element]
    for element in [n for n, b in job.buried.items() if b.edge.shape_only and not job.parts[b.part].on]:
        del job.buried[element]
