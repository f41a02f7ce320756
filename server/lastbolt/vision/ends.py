"""The two ends of a bolt's shank: the votes of its cells, drawn half way to where its mask really ends."""

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.network import CELL_PX, Map, Maps
from lastbolt.vision.outcome import Points

_REACH_PX = 9.0
_STEP_PX = 0.5
_SHARE = 0.5
_TIP_BEYOND_PX, _HEAD_BEYOND_PX, _FLANGE_BEYOND_PX = 2.2, 1.7, 3.8
"""How far the mask's edge lies beyond the true end, median over 274 rendered bolts; a flange hides more."""

Cells = npt.NDArray[np.intp]


def shank_ends(
    maps: Maps, cells: Cells, widths_px: tuple[float, float], *, flange: bool = False
) -> tuple[Points, Points]:
    """Where the axis meets the plane under the head, and the tip, in pixels of the network's input.

    `widths_px` are the head's and the shank's width. Cells near an end know best where it is, so the nearer
    half of them decides; the mask's own edge along the axis then corrects what is left.
    """
    here = np.asarray(cells[:, ::-1] * CELL_PX + (CELL_PX - 1) / 2, dtype=np.float64)
    under = _vote(here, here + maps.under[cells[:, 0], cells[:, 1]])
    tip = _vote(here, here + maps.tip[cells[:, 0], cells[:, 1]])
    length = float(np.linalg.norm(tip - under))
    head, shank = widths_px
    if length < 6.0 or shank < 2.0:
        return under, tip
    axis = (tip - under) / length
    side = np.array([-axis[1], axis[0]])
    mask, corner = _own_mask(maps, cells)
    at = shank / 2 + 0.31 * max(0.0, head - shank)
    heads = [_edge(mask, under - corner + sign * at * side, axis) for sign in (-1.0, 1.0)]
    seen = [edge for edge in heads if edge is not None]
    if seen:
        beyond = _FLANGE_BEYOND_PX if flange else _HEAD_BEYOND_PX
        under = under + _SHARE * (float(np.mean(seen)) - beyond) * axis
    end = _edge(mask, tip - corner, axis)
    if end is not None:
        tip = tip + _SHARE * (end - _TIP_BEYOND_PX) * axis
    return under, tip


def _vote(here: Points, votes: Points) -> Points:
    point = np.median(votes, axis=0)
    for _ in range(2):
        away = np.linalg.norm(here - point, axis=1)
        point = np.median(votes[away <= np.median(away)], axis=0)
    return np.asarray(point, dtype=np.float64)


def _own_mask(maps: Maps, cells: Cells) -> tuple[Map, Points]:
    """The mask on a part's own cells and one cell around, and the pixel position of its first cell."""
    low, high = cells.min(0) - 6, cells.max(0) + 7
    low, high = np.maximum(low, 0), np.minimum(high, maps.mask.shape)
    own = np.zeros(high - low, np.uint8)
    own[cells[:, 0] - low[0], cells[:, 1] - low[1]] = 1
    own = np.asarray(cv2.dilate(own, np.ones((3, 3), np.uint8)), dtype=np.uint8)
    corner = np.asarray(low[::-1] * CELL_PX, dtype=np.float64)
    return np.asarray(maps.mask[low[0] : high[0], low[1] : high[1]] * own, dtype=np.float32), corner


def _edge(mask: Map, start: Points, axis: Points) -> float | None:
    """How far along the axis from `start` the mask falls below one half; None when it does not, nearby."""
    steps = np.arange(-_REACH_PX, _REACH_PX + 0.01, _STEP_PX)
    cells = ((start + steps[:, None] * axis - (CELL_PX - 1) / 2) / CELL_PX).astype(np.float32)
    values = cv2.remap(mask, cells[None, :, 0], cells[None, :, 1], cv2.INTER_LINEAR, borderValue=0.0)[0]
    falls = np.flatnonzero((values[:-1] >= 0.5) & (values[1:] < 0.5))
    if not len(falls) or values.min() > 0.25 or values.max() < 0.75:
        return None
    exact = steps[falls] + (values[falls] - 0.5) / (values[falls] - values[falls + 1]) * _STEP_PX
    return float(exact[np.abs(exact).argmin()])
