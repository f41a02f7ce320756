"""Parts that came off while what holds them was never logged as undone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from ..said import said
from .fastener_set import Act, FastenerSet, Hole, Reach
from .job import Job, Oddity


def unlogged_under_parts(job: Job) -> Iterator[Oddity]:
    """Name each set and connection that must have been undone for a part to come off, and was not logged."""
    for group in job.sets.values():
        if group.described is None or group.captive_act or group.described.loosened_only:
            continue
        part = job.parts.get(group.described.part or "")
        if part is None or part.off_at is None:
            continue
        on = _held_at(group, part.off_at)
        if on:
            yield Oddity(
                group.name,
                said("{part} came off while fasteners of it were never logged as out", part=part.name),
                on,
                part.off_at,
            )
    for connection in job.connections.values():
        part = job.parts.get(connection.described.part or "") if connection.described else None
        if part is not None and part.off_at and connection.apart is None and connection.made is None:
            yield Oddity(
                connection.name,
                said("{part} came off while this was never logged as apart", part=part.name),
                1,
                part.off_at,
            )


def _held_at(group: FastenerSet, off: Act) -> int:
    """Count such fasteners; the part's going on and off is not the set's, so it is asked by time."""
    key = f"held at {off.id}"
    if key not in group.remembered:
        group.remembered[key] = sum(1 for hole in group.holes.values() if _held(hole, off))
    return cast(int, group.remembered[key])


def _held(hole: Hole, off: Act) -> bool:
    """Tell whether a fastener was, by the record, still in its hole and tight when the part came off."""
    if not hole.touched:
        return hole.reach is not Reach.EMPTY
    fitted_before = hole.fitted is not None and hole.fitted.time < off.time
    return fitted_before and hole.reach >= Reach.PLACED and hole.loose is None and hole.undone is None
