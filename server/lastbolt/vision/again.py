"""A picture with few parts or none looked at two or three times: what one look alone sees is not believed.

A part overlooked is the worst error, and a mark taken for a part the next. The network errs in both ways
where it sees a thing by itself, but rarely in the same way when the picture is turned or made smaller.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.finds import is_kept, is_likely
from lastbolt.vision.instances import Instance
from lastbolt.vision.network import CELL_PX, Map
from lastbolt.vision.outcome import Image, Points

FEW = 2
"""Pictures with more parts than this are looked at once."""

_SMALLER = 0.84
_STRONG_HEAT, _STRONG_SOLID = 0.8, 0.92
"""From these on one look is enough."""
_SOME = 0.2
"""Mask from which a look that finds nothing there does not speak against a find."""
_CLEAR = 0.06
"""Mask below which nothing at all is seen."""
_NEAR_PX = 16.0
_SMALL = 1
"""Number of the look at the smaller picture, whose cells are not the first one's."""

Find = Callable[[Image, list[Points], Points | None], tuple[Map, list[Instance]]]


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A picture at the network's scale, the printed symbols in it, and the sheet that is counted on."""

    image: Image
    printed: list[Points]
    field: Points | None


@dataclass(frozen=True, slots=True, eq=False)
class Agreed:
    """What three looks agree on."""

    kept: list[Instance]
    by_all: list[bool]
    """Whether every look sees it, one for each of `kept`."""
    maybe: int
    """Things that one look takes for a part while another sees a trace of it."""
    mask: Map
    """Mean of the looks' masks."""


@dataclass(frozen=True, slots=True, eq=False)
class _View:
    found: list[Instance]
    """In the first picture's own places."""
    mask: Map


def look_again(find: Find, scene: Scene, first: tuple[Map, list[Instance]]) -> Agreed:
    """Look at the picture made smaller too and, unless both see the same, turned upside down.

    What two looks agree on is taken. The mask of `first` gets the cells of parts that only the turned picture
    shows.
    """
    mask, found = first
    views = [_View(found, mask.copy()), _smaller(find, scene, mask.shape)]
    if not _is_settled(views, groups := _groups(views)):
        views.append(_turned(find, scene, mask.shape))
        groups = _groups(views)
    kept, by_all, maybe = [], [], 0
    for group in groups:
        looks = {number for number, _ in group}
        own = [(number, one) for number, one in group if number != _SMALL and is_kept(one)]
        strong = any(one.heat >= _STRONG_HEAT and one.solid >= _STRONG_SOLID for _, one in own)
        if own and (len(looks) > 1 or strong):
            number, best = min(own, key=lambda pair: (pair[0], -pair[1].heat))
            kept.append(best)
            by_all.append(len(looks) == len(views))
            if number:
                rows, cols = best.cells.T
                mask[rows, cols] = np.maximum(mask[rows, cols], views[number].mask[rows, cols])
        elif sorted(_at(view.mask, group[0][1]) for view in views)[-2] >= _SOME:
            maybe += 1
    mean = np.mean([view.mask for view in views], axis=0)
    return Agreed(kept, by_all, maybe, np.asarray(mean, dtype=np.float32))


def is_plain(mask: Map, found: list[Instance]) -> bool:
    """Whether one look is enough: parts are seen, all of them strongly, and no trace of anything else."""
    view = _View(found, mask)
    strong = all(one.heat >= _STRONG_HEAT and one.solid >= _STRONG_SOLID for one in found)
    return bool(found) and strong and _is_settled([view], _groups([view]))


def _is_settled(views: list[_View], groups: list[list[tuple[int, Instance]]]) -> bool:
    """Whether all looks see the same parts, and no trace of anything else."""
    if any(len({number for number, one in group if is_kept(one)}) < len(views) for group in groups):
        return False
    for view in views:
        left = view.mask.copy()
        for group in groups:
            for _, one in group:
                low, high = np.maximum(one.cells.min(0) - 3, 0), one.cells.max(0) + 4
                left[low[0] : high[0], low[1] : high[1]] = 0
        if left.max() > _CLEAR:
            return False
    return True


def _turned(find: Find, scene: Scene, shape: tuple[int, ...]) -> _View:
    """What the picture turned upside down shows, turned back."""
    edge = np.array([scene.image.shape[1] - 1, scene.image.shape[0] - 1], dtype=np.float64)
    image = np.ascontiguousarray(scene.image[::-1, ::-1])
    inside = None if scene.field is None else edge - scene.field
    seen, found = find(image, [edge - quad for quad in scene.printed], inside)
    last = np.array(shape) - 1
    mask = np.ascontiguousarray(seen[::-1, ::-1])
    back = [
        replace(
            one, cells=last - one.cells, centre=edge - one.centre, under=edge - one.under, tip=edge - one.tip
        )
        for one in found
    ]
    return _View(back, mask)


def _smaller(find: Find, scene: Scene, shape: tuple[int, ...]) -> _View:
    """What the picture made smaller shows, in the first one's places; its cells are not the first one's."""
    small = cv2.resize(scene.image, None, fx=_SMALLER, fy=_SMALLER, interpolation=cv2.INTER_AREA)
    inside = None if scene.field is None else scene.field * _SMALLER
    seen, found = find(np.asarray(small), [quad * _SMALLER for quad in scene.printed], inside)
    mask = cv2.resize(seen, (shape[1], shape[0]), interpolation=cv2.INTER_LINEAR)
    grown = [
        replace(one, centre=one.centre / _SMALLER, cells=np.round(one.cells / _SMALLER).astype(np.intp))
        for one in found
    ]
    return _View(grown, np.asarray(mask, dtype=np.float32))


def _groups(views: list[_View]) -> list[list[tuple[int, Instance]]]:
    """Finds of all looks (number of the look, find), those of one place together."""
    groups: list[list[tuple[int, Instance]]] = []
    for number, view in enumerate(views):
        for one in view.found:
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


def _at(mask: Map, one: Instance) -> float:
    """The strongest cell of a mask where a find lies."""
    low: npt.NDArray[np.intp] = np.maximum(one.cells.min(0) - 2, 0)
    high = one.cells.max(0) + 3
    patch = mask[low[0] : high[0], low[1] : high[1]]
    return float(patch.max()) if patch.size else 0.0
