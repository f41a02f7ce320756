"""Whether a label lies on a tray's raised lip: then a wall runs between it and the parts."""

import cv2
import numpy as np

from lastbolt.vision.corners import homography, square_corners
from lastbolt.vision.outcome import Grey, Image, Points

LIP_RISE_MM = 19.0
LIP_RISE_SIGMA_MM = 5.0
"""How high a tray's lip lies above its floor, and how much that varies; common practice, no source."""

_VIEW_MM = 60.0
_MM_PER_PX = 0.5
_HALF_WIDTH_MM = 40.0
_NEAREST_MM = 23.0
_FARTHEST_MM = 48.0
_EDGE = 2.0
"""L*a*b* units per half millimetre: walls gave 1.5 to 48 in rendered trays, bare floor 0.1 to 1.2."""


def is_on_lip(image: Image, corners: Points, symbol_mm: float, towards: Points) -> bool:
    """Whether a long straight edge, square to the label, lies between the label and the point `towards`.

    Looks from the symbol's middle in those of its four directions that lead to that point, 23 to 48 mm away.
    """
    view, to_view = _top_view(image, corners, symbol_mm)
    at = to_view @ np.array([towards[0], towards[1], 1.0])
    lead = at[:2] / at[2] - (view.shape[0] - 1) / 2
    lead /= float(np.linalg.norm(lead)) + 1e-9
    for quarter, axis in enumerate(((0, 1), (1, 0), (0, -1), (-1, 0))):
        if lead @ np.array(axis) > 0.35 and _edge_strength(np.rot90(view, -quarter)) > _EDGE:
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


def _edge_strength(view: Grey) -> float:
    """The strongest step down the picture that half of a wide strip's columns share."""
    middle, half = view.shape[1] // 2, int(_HALF_WIDTH_MM / _MM_PER_PX)
    steps = np.diff(view[:, middle - half : middle + half], axis=0)
    profile = np.abs(np.median(steps, axis=1)).sum(1)
    first, last = (int((_VIEW_MM + mm) / _MM_PER_PX) for mm in (_NEAREST_MM, _FARTHEST_MM))
    return float(profile[first:last].max())
