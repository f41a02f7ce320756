"""Old pieces that new ones of the same type have taken the place of."""

from __future__ import annotations

from .fastener_set import EMPTY, PARKED
from .job import Job
from .ledger import Lot, is_alike


def is_replaced(job: Job, lot: Lot, n: int) -> bool:
    """Tell whether n used pieces of a lot are superseded: as many new ones of that type are in the holes.

    The set must have no empty hole left; a new piece of another type replaces nothing (practice C01, C09).
    """
    group = job.sets.get(lot.set or "")
    if group is None or lot.new or group.of_reach(EMPTY, PARKED):
        return False
    written = job.ledger.types.get(lot.type)
    new = 0
    for hole in group.holes.values():
        old = written or group.wanted(hole.number)
        new += hole.new and (old is None or (hole.type is not None and is_alike(old, hole.type)))
    return new >= n
