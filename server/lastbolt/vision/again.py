"""Where few parts or none are seen, each trace is looked at closer: what one look alone sees is doubted.

A part overlooked is the worst error, and a mark taken for a part the next. The network errs in both ways
where it sees a thing by itself, but rarely in the same way when the place is turned, mirrored or enlarged.
"""

from dataclasses import dataclass

import numpy as np

from lastbolt.vision.closer import Find, Glimpse, Scene, Way, glimpse, places
from lastbolt.vision.finds import is_kept, is_likely
from lastbolt.vision.instances import Instance
from lastbolt.vision.network import CELL_PX, Map

FEW = 2
"""Pictures with more parts than this are looked at once."""

_WAYS = (Way((-1, -1)), Way((-1, 1)), Way((1, 1), 1.15))
_ENLARGED = 3
"""Number of the look whose cells are not the picture's own; the first look at the whole picture is 0."""
_BY_ALL = 3
_STRONG_HEAT, _STRONG_SOLID = 0.8, 0.92
"""From these on one look is enough."""
_SOME, _SOME_HEAT = 0.4, 0.6
"""What one look alone sees is told from this product of heat and mask on, or from this heat."""
_CLEAR = 0.06
"""Mask below which nothing at all is seen."""
_NEAR_PX = 16.0


@dataclass(frozen=True, slots=True, eq=False)
class Agreed:
    """What the looks agree on."""

    kept: list[Instance]
    by_all: list[bool]
    """Whether nearly every look sees it, one for each of `kept`."""
    maybe: int
    """Things that one look alone takes for a part."""
    mask: Map
    """Mean of the looks' masks."""


Group = list[tuple[int, Instance]]
"""Finds of one place, each with the number of its look."""


def look_again(find: Find, scene: Scene, first: tuple[Map, list[Instance]]) -> Agreed:
    """Look closer at every place where `first` shows a part or a trace, in three ways.

    What two looks agree on is taken. The mask of `first` gets the cells of parts that a later look shows.
    """
    mask, found = first
    at = places(scene, mask, found)
    looks = [[glimpse(find, scene, place, way) for place in at] for way in _WAYS]
    mean = _mean(mask, looks)
    kept, by_all, maybe = [], [], 0
    for group in _groups([found, *([one for seen in look for one in seen.found] for look in looks)]):
        by = {number for number, one in group if is_kept(one)}
        own = [(number, one) for number, one in group if number < _ENLARGED and is_kept(one)]
        if own and (len(by) > 1 or any(_is_strong(one) for _, one in own)):
            number, best = min(own, key=lambda pair: (pair[0], -pair[1].heat))
            kept.append(best)
            by_all.append(len(by) >= _BY_ALL)
            if number:
                _lend(mask, best, looks[number - 1])
        elif any(_is_something(one) for _, one in group):
            maybe += 1
    return Agreed(kept, by_all, maybe, mean)


def is_plain(mask: Map, found: list[Instance]) -> bool:
    """Whether one look is enough: parts are seen, all of them strongly, and no trace of anything else."""
    left = mask.copy()
    for one in found:
        low, high = np.maximum(one.cells.min(0) - 3, 0), one.cells.max(0) + 4
        left[low[0] : high[0], low[1] : high[1]] = 0
    return bool(found) and all(_is_strong(one) for one in found) and bool(left.max() <= _CLEAR)


def _is_strong(one: Instance) -> bool:
    return one.heat >= _STRONG_HEAT and one.solid >= _STRONG_SOLID


def _is_something(one: Instance) -> bool:
    return one.heat >= _SOME_HEAT or (is_kept(one) and one.heat * one.solid >= _SOME)


def _cells_of(seen: Glimpse) -> tuple[slice, slice]:
    left, top = seen.place[0] // CELL_PX, seen.place[1] // CELL_PX
    return slice(top, top + seen.mask.shape[0]), slice(left, left + seen.mask.shape[1])


def _mean(mask: Map, looks: list[list[Glimpse]]) -> Map:
    """Mean of the looks' masks where closer ones were taken, else the first one's."""
    mean = mask.copy()
    for one_place in zip(*looks, strict=True):
        here = _cells_of(one_place[0])
        mean[here] = np.mean([mask[here], *(seen.mask for seen in one_place)], axis=0)
    return mean


def _lend(mask: Map, one: Instance, look: list[Glimpse]) -> None:
    """Put the cells of a part that only a later look shows into the first look's mask."""
    rows, cols = one.cells.T
    for seen in look:
        down, over = _cells_of(seen)
        inside = (rows >= down.start) & (rows < down.stop) & (cols >= over.start) & (cols < over.stop)
        r, c = rows[inside], cols[inside]
        mask[r, c] = np.maximum(mask[r, c], seen.mask[r - down.start, c - over.start])


def _groups(looks: list[list[Instance]]) -> list[Group]:
    """Finds of all looks, those of one place together."""
    groups: list[Group] = []
    for number, look in enumerate(looks):
        for one in look:
            if not (is_kept(one) or is_likely(one)):
                continue
            home = next((group for group in groups if _is_same(group[0][1], one)), None)
            if home is None:
                groups.append([(number, one)])
            else:
                home.append((number, one))
    return groups


def _is_same(one: Instance, other: Instance) -> bool:
    reach = max(_NEAR_PX, 0.3 * CELL_PX * float(np.ptp(one.cells, axis=0).max()))
    return float(np.linalg.norm(one.centre - other.centre)) < reach
