"""How far the record of a job reaches: sets with count, photo and place, values known, second looks had."""

from __future__ import annotations

from dataclasses import dataclass

from ..state.fastener_set import FastenerSet, was_touched
from ..state.job import Job
from ..state.second_look import is_set_seen


@dataclass(frozen=True, slots=True)
class SetCoverage:
    """What the record knows of one touched set; `second` is None where no second person is asked for."""

    set: str
    counted: bool
    photographed: bool
    placed: bool
    torque_known: bool
    second: bool | None

    @property
    def missing(self) -> tuple[str, ...]:
        """Name what the record lacks."""
        lacks = (
            ("count", self.counted),
            ("photo", self.photographed),
            ("place", self.placed),
            ("torque", self.torque_known),
            ("second person", self.second is not False),
        )
        return tuple(name for name, known in lacks if not known)


def coverage(job: Job) -> tuple[SetCoverage, ...]:
    """Look at every set that was touched in a job, in the order of its name."""
    return tuple(_covered(job, group) for _, group in sorted(job.sets.items()) if was_touched(group))


def _covered(job: Job, group: FastenerSet) -> SetCoverage:
    part = group.described.part if group.described else None
    lay_in = [name for name, container in job.containers.items() if group.name in container.sets_seen]
    photos = [photo for name in (group.name, part or "", *lay_in) for photo in job.photos_of.get(name, ())]
    wants_second = group.critical or bool(group.described and group.described.second_person)
    return SetCoverage(
        group.name,
        counted=group.unknown_since is None and bool(group.described or group.removed),
        photographed=bool(photos),
        placed=part is not None or bool(job.photos_of.get(group.name)),
        torque_known=group.spec is not None,
        second=is_set_seen(job, group) if wants_second else None,
    )
