"""Parts that came off while what holds them was never logged as undone."""

from __future__ import annotations

from collections.abc import Iterator

from .job import Job, Oddity


def unlogged_under_parts(job: Job) -> Iterator[Oddity]:
    """Name each set and connection that must have been undone for a part to come off, and was not logged."""
    for group in job.sets.values():
        if group.described is None or group.captive_act or group.described.loosened_only:
            continue
        part = job.parts.get(group.described.part or "")
        if part is None or part.off_at is None:
            continue
        on = sum(1 for hole in group.holes.values() if not hole.touched)
        if on:
            yield Oddity(
                group.name,
                f"{part.name} came off while fasteners of it were never logged as out",
                on,
                part.off_at,
            )
    for connection in job.connections.values():
        part = job.parts.get(connection.described.part or "") if connection.described else None
        if part is not None and part.off_at and connection.apart is None and connection.made is None:
            yield Oddity(
                connection.name, f"{part.name} came off while this was never logged as apart", 1, part.off_at
            )
