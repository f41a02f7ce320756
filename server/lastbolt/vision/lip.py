"""Whether a label lies on a tray's raised lip: then a wall runs between it and the parts."""

import cv2
import numpy as np

from lastbolt.vision.corners import homography, map_points, square_corners
from lastbolt.vision.outcome import Grey, Image, Points

LIP_RISE_MM = 19.0
LIP_RISE_SIGMA_MM = 5.0
"""How high a tray's lip lies above its floor, and how much that varies; common practice, no source."""

_VIEW_MM = 60.0
_MM_PER_PX = 0.5
_HALF_WIDTH_MM = 40.0
_NEAREST_MM = 23.0
_FARTHEST_MM = 48.0
_BESIDE_MM = 4.0
_LEAST_FREE = 0.3
_EDGE = 3.0
"""L*a*b* units per half millimetre: by 171 rendered labels walls gave 3.9 to 48, one 0.6, floor up to 2.4."""


def is_on_lip(image: Image, corners: Points, symbol_mm: float, parts: list[Points]) -> bool:
    """Whether a long straight edge, square to the label, lies between the label and the middle of the parts.

    Looks from the symbol's middle in those of its four directions that lead there, 23 to 48 mm away. Edges of
    the parts themselves (their outlines, in pixels) are no wall's.
    """
    view, to_view = _top_view(image, corners, symbol_mm)
    towards = np.mean([outline.mean(0) for outline in parts], axis=0)
    at = to_view @ np.array([towards[0], towards[1], 1.0])
    bare = _bare(view.shape[0], [map_points(to_view, outline) for outline in parts])
    lead = at[:2] / at[2] - (view.shape[0] - 1) / 2
    lead /= float(np.linalg.norm(lead)) + 1e-9
    for quarter, axis in enumerate(((0, 1), (1, 0), (0, -1), (-1, 0))):
        ahead = (np.rot90(view, -quarter), np.rot90(bare, -quarter))
        if lead @ np.array(axis) > 0.35 and _edge_strength(*ahead) > _EDGE:
            return True
    return False


def _top_view(image: Image, corners: Points, symbol_mm: float) -> tuple[Image, Points]:
    edge = round(2 * _VIEW_MM / _MM_PER_PX)
    target = (square_corners(symbol_mm) - symbol_mm / 2 + _VIEW_MM) / _MM_PER_PX - 0.5
    matrix = homography(corners, target)
    view = cv2.warpPerspective(
        image, matrix, (edge, edge), flags=cv2.INTER_AREA, borderMode=cv2.BORDER_REPLICATE
    )
    lab = cv2.cvtColor(view, cv2.COLOR_RGB2LAB).astype(np.float32)
    return cv2.GaussianBlur(lab, (0, 0), 1.5), matrix


def _bare(edge_px: int, outlines: list[Points]) -> Grey:
    """1 where the top view shows no part, nor what lies right beside one."""
    bare = np.ones((edge_px, edge_px), np.uint8)
    for outline in outlines:
        near = np.round(outline.clip(-2 * edge_px, 3 * edge_px)).astype(np.int32)
        cv2.fillPoly(bare, [near], 0)
        cv2.polylines(bare, [near], True, 0, int(2 * _BESIDE_MM / _MM_PER_PX))
    return bare


def _edge_strength(view: Grey, bare: Grey) -> float:
    """The strongest step down the picture that half of a wide strip's columns share.

    Places with parts are left out; a row of which they cover most says nothing.
    """
    middle, half = view.shape[1] // 2, int(_HALF_WIDTH_MM / _MM_PER_PX)
    first, last = (int((_VIEW_MM + mm) / _MM_PER_PX) for mm in (_NEAREST_MM, _FARTHEST_MM))
    across = slice(middle - half, middle + half)
    free = bare[first + 1 : last + 1, across] > 0
    steps = np.where(free[..., None], np.diff(view[first : last + 1, across], axis=0), np.nan)
    steps[free.mean(1) < _LEAST_FREE] = 0.0
    return float(np.abs(np.nanmedian(steps, axis=1)).sum(1).max())
