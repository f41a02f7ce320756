"""Parts that came off while what holds them was never logged as undone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from ..said import said
from .fastener_set import EMPTY, PLACED, Act, FastenerSet, Hole
from .job import Job, Oddity


def unlogged_under_parts(job: Job) -> Iterator[Oddity]:
    """Name each set and connection that must have been undone for a part to come off, and was not logged."""
    for group in job.sets.values():
        if group.described is None or group.described.loosened_only:
            continue
        part = job.parts.get(group.described.part or "")
        if part is None or part.off_at is None:
            continue
        on = _latched_at(group, part.off_at) if group.captive_act else _held_at(group, part.off_at)
        if on:
            yield Oddity(
                group.name,
                said("{part} came off while fasteners of it were never logged as out", part=part.name),
                on,
                part.off_at,
            )
    for connection in job.connections.values():
        part = job.parts.get(connection.described.part or "") if connection.described else None
        if part is None or part.off_at is None or connection.apart is not None:
            continue
        if connection.made is None or connection.made.when < part.off_at.when:
            yield Oddity(
                connection.name,
                said("{part} came off while this was never logged as apart", part=part.name),
                1,
                part.off_at,
            )


def _latched_at(group: FastenerSet, off: Act) -> int:
    """Count captive points that were shut, by the record, when the part came off."""
    shut = group.captive_open == 0 and group.captive_act is not None and group.captive_act.when < off.when
    return group.n if shut else 0


def _held_at(group: FastenerSet, off: Act) -> int:
    """Count such fasteners; the part's going on and off is not the set's, so it is asked by time."""
    key = f"held at {off.nth}"
    if key not in group.remembered:
        group.remembered[key] = sum(1 for hole in group.holes.values() if _held(hole, off))
    return cast(int, group.remembered[key])


def _held(hole: Hole, off: Act) -> bool:
    """Tell whether a fastener was, by the record, still in its hole and tight when the part came off."""
    if not hole.touched:
        return hole.reach is not EMPTY
    fitted_before = hole.fitted is not None and hole.fitted.when < off.when
    return fitted_before and hole.reach >= PLACED and hole.loose is None and hole.undone is None
