"""What the network finds in one picture that is neither print nor phantom, and which of it counts."""

import cv2
import numpy as np

from lastbolt.vision.instances import Instance, find_instances
from lastbolt.vision.network import CELL_PX, Map, Maps, read_maps
from lastbolt.vision.outcome import Grey, Image, Points

LEAST_HEAT = 0.42
TRACE_SOLID = 0.62
_LEAST_SOLID = 0.705
_FLAT = 14.0
"""Grey levels between the brightest and the darkest of a patch; the faintest real part had 33."""


def found_in(small: Image, printed: list[Points], field: Points | None) -> tuple[Map, list[Instance]]:
    """What the network sees in a picture as a mask, and what it finds there, neither print nor phantom."""
    maps = read_maps(small)
    if field is not None:
        _keep_inside(maps, *(quad / CELL_PX for quad in (field, *printed)))
    grey = cv2.cvtColor(small, cv2.COLOR_RGB2GRAY)
    found = [one for one in find_instances(maps) if not _is_phantom(grey, one) and not _is_on(one, printed)]
    return maps.mask, found


def _keep_inside(maps: Maps, field: Points, *printed: Points) -> None:
    """Blot out what the network says of cells outside a four-cornered field and on what is printed in it."""
    inside = np.zeros(maps.mask.shape, np.uint8)
    cv2.fillConvexPoly(inside, np.round(field).astype(np.int32), 1)
    for quad in printed:
        cv2.fillConvexPoly(inside, np.round(quad).astype(np.int32), 0)
    maps.mask[...] *= inside
    maps.heat[...] *= inside


def is_kept(one: Instance) -> bool:
    """Whether a found thing counts; a scattered, half-hearted one (as along a cut cable tie) does not."""
    scattered = one.heat < 0.5 and one.agreement < 0.6 and one.solid < 0.8
    return one.heat >= LEAST_HEAT and one.solid >= _LEAST_SOLID and not scattered


def _is_on(one: Instance, quads: list[Points]) -> bool:
    at = (float(one.centre[0]), float(one.centre[1]))
    return any(cv2.pointPolygonTest(quad.astype(np.float32), at, False) >= 0 for quad in quads)


def _is_phantom(grey: Grey, one: Instance) -> bool:
    """A weak find where the picture itself is flat, as happens on burnt-out paper."""
    if one.heat >= 0.65:
        return False
    low, high = one.cells.min(0) * CELL_PX - 3, one.cells.max(0) * CELL_PX + 5
    patch = grey[max(0, low[0]) : high[0], max(0, low[1]) : high[1]]
    return float(np.percentile(patch, 97) - np.percentile(patch, 3)) < _FLAT


def is_likely(one: Instance) -> bool:
    """Whether a found thing may be a part: less is asked of it than to be counted."""
    return one.heat >= LEAST_HEAT and one.solid >= TRACE_SOLID and one.agreement >= 0.6
