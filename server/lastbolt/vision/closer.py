"""Places of a picture where something may lie, and closer looks at one place: turned, mirrored, enlarged."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import cv2
import numpy as np

from lastbolt.vision.instances import Instance
from lastbolt.vision.network import CELL_PX, Map
from lastbolt.vision.outcome import Image, Points

_TRACE = 0.03
"""Mask from which a place is looked at: of 549 parts on 384 rendered trays the faintest had 0.38."""
_JOINED_CELLS = 5
_PLACE_PX, _AROUND_PX, _ROUND_PX = 224, 112, 32
_INNER_PX, _CUT_PX = 36, 20
_MOST_PLACES = 6
_PRINT_GROWN = 1.25

Place = tuple[int, int, int, int]
"""Left, top, right, bottom in pixels of the network's input, the last two just outside."""

Find = Callable[[Image, list[Points], Points | None], tuple[Map, list[Instance]]]


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A picture at the network's scale, the printed symbols in it, and the sheet that is counted on."""

    image: Image
    printed: list[Points]
    field: Points | None


@dataclass(frozen=True, slots=True)
class Way:
    """How a place is shown: -1 turns an axis (x, y) round; `scale` enlarges."""

    axes: tuple[int, int]
    scale: float = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class Glimpse:
    """What one look at one place shows, in the whole picture's pixels and cells."""

    place: Place
    found: list[Instance]
    mask: Map
    """Of the place alone."""


def places(scene: Scene, mask: Map, found: list[Instance]) -> list[Place]:
    """Where a first look shows a part or a trace of one, what is strongest first; at most six places."""
    height, width = scene.image.shape[:2]
    taken: list[Place] = []
    for _, (left, top, right, bottom) in sorted(_boxes(mask, found, scene.printed), reverse=True):
        if any(_is_inside((left, top, right, bottom), place, (width, height)) for place in taken):
            continue
        size = [max(_PLACE_PX, edge + _AROUND_PX) for edge in (right - left, bottom - top)]
        size = [-(-edge // _ROUND_PX) * _ROUND_PX for edge in size]
        wide, high = min(size[0], width // 2 * 2), min(size[1], height // 2 * 2)
        x = min(max(0, (left + right - wide) // 4 * 2), (width - wide) // 2 * 2)
        y = min(max(0, (top + bottom - high) // 4 * 2), (height - high) // 2 * 2)
        taken.append((x, y, x + wide, y + high))
    return taken[:_MOST_PLACES]


def glimpse(find: Find, scene: Scene, place: Place, way: Way) -> Glimpse:
    """Look at one place in one way. What its edge cuts off is left out."""
    left, top, right, bottom = place
    corner, edge = np.array([left, top]), np.array([right - left - 1, bottom - top - 1])
    turned, scale = np.array(way.axes) < 0, way.scale

    def there(at: Points) -> Points:
        return np.asarray((np.where(turned, edge - (at - corner), at - corner) + 0.5) * scale - 0.5)

    def back(at: Points) -> Points:
        here = (at + 0.5) / scale - 0.5
        return np.asarray(np.where(turned, edge - here, here) + corner)

    shown = scene.image[top:bottom, left:right][:: way.axes[1], :: way.axes[0]]
    if scale != 1.0:
        shown = cv2.resize(shown, None, fx=scale, fy=scale, interpolation=cv2.INTER_LINEAR)
    field = None if scene.field is None else there(scene.field)
    mask, found = find(np.ascontiguousarray(shown), [there(quad) for quad in scene.printed], field)
    size = (-(-(right - left) // CELL_PX), -(-(bottom - top) // CELL_PX))
    upright = cv2.resize(np.ascontiguousarray(mask[:: way.axes[1], :: way.axes[0]]), size)
    seen = [_moved(one, back) for one in found]
    whole = [one for one in seen if not _is_cut(one.centre, place, scene.image.shape)]
    return Glimpse(place, whole, np.asarray(upright, dtype=np.float32))


def _moved(one: Instance, back: Callable[[Points], Points]) -> Instance:
    """A find put where it lies in the whole picture; its cells fit exactly only if it was not enlarged."""
    half = (CELL_PX - 1) / 2
    cells = (back(np.asarray(one.cells[:, ::-1] * float(CELL_PX) + half)) - half) / CELL_PX
    return replace(
        one,
        cells=np.round(cells[:, ::-1]).astype(np.intp),
        centre=back(one.centre),
        under=back(one.under),
        tip=back(one.tip),
    )


def _boxes(mask: Map, found: list[Instance], printed: list[Points]) -> list[tuple[float, Place]]:
    """Box of each find and of each patch of the mask, with its strength."""
    left = mask.copy()
    for quad in printed:
        middle = quad.mean(0)
        grown = (middle + (quad - middle) * _PRINT_GROWN) / CELL_PX
        cv2.fillConvexPoly(left, np.round(grown).astype(np.int32), 0.0)
    wide = np.asarray(cv2.dilate(left, np.ones((_JOINED_CELLS, _JOINED_CELLS), np.uint8)))
    number, _, stats, _ = cv2.connectedComponentsWithStats((wide > _TRACE).astype(np.uint8))
    patches: list[tuple[float, Place]] = []
    for x, y, w, h, _ in np.asarray(stats)[1:number].tolist():
        strength = float(left[y : y + h, x : x + w].max())
        patches.append((strength, (x * CELL_PX, y * CELL_PX, (x + w) * CELL_PX, (y + h) * CELL_PX)))
    for one in found:
        top, x = (int(v) * CELL_PX for v in one.cells.min(0))
        bottom, right = (int(v + 1) * CELL_PX for v in one.cells.max(0))
        patches.append((1.0 + one.heat, (x, top, right, bottom)))
    return patches


def _is_inside(box: Place, place: Place, size: tuple[int, int]) -> bool:
    """Whether a box lies so well inside a place that a look at the place shows it and what is around it."""
    low = all(box[k] >= place[k] + (_INNER_PX if place[k] > 0 else 0) for k in (0, 1))
    return low and all(
        box[k + 2] <= place[k + 2] - (_INNER_PX if place[k + 2] < size[k] else 0) for k in (0, 1)
    )


def _is_cut(at: Points, place: Place, shape: tuple[int, ...]) -> bool:
    """Whether a point lies so near a place's edge, where that is not the picture's, that it may be cut."""
    low = any(place[k] > 0 and at[k] < place[k] + _CUT_PX for k in (0, 1))
    return low or any(place[k + 2] < shape[1 - k] - 1 and at[k] > place[k + 2] - _CUT_PX for k in (0, 1))
