"""What a part hides when it goes on, and what was ready by then (practice 2.4)."""

from __future__ import annotations

from collections import defaultdict

from ..journal.machine import AccessSaid
from .elements import Buried
from .fastener_set import FINAL, PLACED, SNUG, Act, FastenerSet, Hole
from .job import Job

TRUSTED_STRENGTH = 2
"""Only what was said at the machine or in a checked plan may stop a release."""
SUGGESTED_STRENGTH = 1
"""A photo pair suggests it: worth a note; what is only guessed from the order of removal is not."""
SIGNED_WORK = 3
"""The level of a job from which torque values are recorded."""
NEED_WORDS = {"placed": "in place", "snug": "snug", "final": "tight", "looked-at": "looked at"}
"""How far a thing must be before another hides it, in words."""


def routes_to(job: Job, element: str) -> dict[str | None, list[AccessSaid]]:
    """Group the trusted edges over an element by route; hidden only if every route is shut."""
    routes: dict[str | None, list[AccessSaid]] = defaultdict(list)
    for edge in job.access:
        if edge.element == element and is_trusted(edge) and not edge.shape_only:
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
        if need == "looked-at":
            is_shut_seen = opening.open_since is None and opening.closed_unseen is None
            return is_shut_seen or opening.looked is not None
        return opening.open_since is None
    if element in job.parts:
        return job.parts[element].on
    if element in job.tests:
        return job.tests[element].run is not None and job.tests[element].passed
    return True


def hole_is_ready(group: FastenerSet, hole: Hole, need: str) -> bool:
    """Tell whether one hole has reached a level; below signed work, placed is as far as the record goes."""
    if not hole.touched:
        return True
    if hole.reach < PLACED or hole.loose is not None:
        return False
    if need == "placed":
        return True
    if need == "snug":
        return hole.reach >= SNUG or not group.has_value
    pulled = not group.has_value or all(stage in hole.pulls for stage in group.stages_of(hole.number))
    return hole.reach is FINAL and hole.undone is None and pulled


def is_trusted(edge: AccessSaid) -> bool:
    """Tell whether somebody said it at the machine, or a checked plan does."""
    return edge.strength >= TRUSTED_STRENGTH


def need_at(level: int, need: str) -> str:
    """Give how far a thing must be at a level: below signed work in place, or looked at (practice 1.2)."""
    return need if level >= SIGNED_WORK or need == "looked-at" else "placed"


def cover(job: Job, part: str, act: Act) -> None:
    """A part goes on: note what it buries before it was ready."""
    for edge in list(job.access):
        if edge.part != part or edge.strength < SUGGESTED_STRENGTH or edge.shape_only:
            continue
        if is_ready(job, edge.element, need_at(job.level, edge.need)):
            continue
        if is_trusted(edge):
            if is_hidden(job, edge.element):
                job.buried[edge.element] = Buried(edge.element, part, act, edge)
        elif not routes_to(job, edge.element) and edge.element not in job.buried:
            job.buried[edge.element] = Buried(edge.element, part, act, edge)
    for edge in job.access:
        if edge.shape_only and edge.part == part and not is_ready(job, edge.element, "placed"):
            job.buried[edge.element] = Buried(edge.element, part, act, edge)


def uncover(job: Job) -> None:
    """A part came off: what can be reached again is not buried any more."""
    for element, buried in list(job.buried.items()):
        edge = buried.edge
        by_part = edge.shape_only or not is_trusted(edge)
        if not job.parts[buried.part].on if by_part else not is_hidden(job, element):
            del job.buried[element]
