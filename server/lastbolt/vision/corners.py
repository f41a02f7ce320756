"""Corners of a QR symbol to a fraction of a pixel, by aligning its own module pattern to the picture."""

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.outcome import Grey, Points

_MARGIN = 2
"""Modules of quiet zone that are compared too."""
_FINDER = np.array(
    [[max(abs(r - 3), abs(c - 3)) in (0, 1, 3) for c in range(7)] for r in range(7)], dtype=np.float32
)


def square_corners(edge: float) -> Points:
    """Top left, top right, bottom right, bottom left of a square with its top left at (0, 0)."""
    return np.array([[0, 0], [edge, 0], [edge, edge], [0, edge]], dtype=np.float64)


def map_points(matrix: npt.NDArray[np.float64], points: Points) -> Points:
    """Points through a 3 x 3 homography."""
    out = np.c_[points, np.ones(len(points))] @ matrix.T
    return np.asarray(out[:, :2] / out[:, 2:], dtype=np.float64)


def homography(source: Points, target: Points) -> npt.NDArray[np.float64]:
    """The 3 x 3 matrix that takes the four or more source points to the target points (least squares)."""
    if len(source) == 4:
        exact = cv2.getPerspectiveTransform(source.astype(np.float32), target.astype(np.float32))
        return np.asarray(exact, dtype=np.float64)
    matrix, _ = cv2.findHomography(source, target, 0)
    return np.asarray(matrix, dtype=np.float64)


def refine_corners(grey: Grey, rough: Points, modules: int) -> Points:
    """Corners of a symbol from rough ones, good to about a tenth of a pixel on a sharp label.

    The module pattern is read off the picture with the rough corners, drawn clean and aligned to the picture
    by maximising the enhanced correlation coefficient (Evangelidis and Psarakis 2008, as in OpenCV).
    Gives the rough corners back when that does not converge or wanders off by more than a module and a half.
    """
    module_px = float(np.mean(np.linalg.norm(rough - np.roll(rough, 1, 0), axis=1))) / modules
    view, offset = _window(grey, rough, 3 * module_px)
    zoom = 1.0 if module_px > 3.2 else 2.0
    if zoom > 1:
        view = np.asarray(cv2.resize(view, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_CUBIC))
    scale = int(np.clip(round(module_px * zoom), 3, 6))
    corners = rough - offset
    for _ in range(2):
        aligned = _aligned(view, (corners + 0.5) * zoom - 0.5, modules, scale)
        if aligned is None:
            return rough
        corners = (aligned + 0.5) / zoom - 0.5
        if np.abs(corners + offset - rough).max() > max(2.0, 1.5 * module_px):
            return rough
    return corners + offset


def refine_pattern(grey: Grey, rough: Points, bits: npt.NDArray[np.bool_]) -> Points:
    """Corners of a square pattern of known cells (True is black), aligned like a symbol's."""
    modules = len(bits)
    module_px = float(np.mean(np.linalg.norm(rough - np.roll(rough, 1, 0), axis=1))) / modules
    view, offset = _window(grey, rough, 3 * module_px)
    scale = int(np.clip(round(module_px), 3, 8))
    aligned = _fitted(view, rough - offset, _drawn(bits, scale), (modules, scale))
    if aligned is None or np.abs(aligned + offset - rough).max() > max(2.0, 0.6 * module_px):
        return rough
    return aligned + offset


def ordered_symbol(grey: Grey, rough: Points) -> tuple[Points, int | None]:
    """Corners in the symbol's own order, and its modules along an edge, judged by the finder patterns."""
    best: tuple[float, Points, int | None] = (0.62, rough, None)
    area = float(cv2.contourArea(rough.astype(np.float32), oriented=True))
    around = rough if area > 0 else rough[::-1]
    for modules in range(21, 58, 4):
        for turn in range(4):
            corners = np.roll(around, turn, 0)
            score = _finder_score(_patch(grey, corners, modules, 5), modules)
            if score > best[0] + 1e-6:
                best = (score, corners, modules)
    return best[1], best[2]


def _window(grey: Grey, corners: Points, margin: float) -> tuple[Grey, Points]:
    height, width = grey.shape
    low = np.floor(corners.min(0) - margin).astype(int).clip(0)
    high = np.minimum(np.ceil(corners.max(0) + margin).astype(int) + 1, (width, height))
    return np.ascontiguousarray(grey[low[1] : high[1], low[0] : high[0]]), low.astype(np.float64)


def _warp(corners: Points, modules: int, scale: int) -> npt.NDArray[np.float64]:
    """From pixels of a drawn symbol (with margin) to pixels of the picture."""
    drawn = square_corners(modules * scale) + _MARGIN * scale - 0.5
    return homography(drawn, corners)


def _patch(grey: Grey, corners: Points, modules: int, scale: int) -> npt.NDArray[np.float32]:
    edge = (modules + 2 * _MARGIN) * scale
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    matrix = _warp(corners, modules, scale)
    patch = cv2.warpPerspective(grey, matrix, (edge, edge), flags=flags, borderMode=cv2.BORDER_REPLICATE)
    return patch.astype(np.float32)


def _aligned(view: Grey, corners: Points, modules: int, scale: int) -> Points | None:
    bits = _bits(_patch(view, corners, modules, scale), modules, scale)
    return _fitted(view, corners, _drawn(bits, scale), (modules, scale))


def _fitted(view: Grey, corners: Points, drawn: Grey, size: tuple[int, int]) -> Points | None:
    modules, scale = size
    start = _warp(corners, modules, scale).astype(np.float32)
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 30, 1e-5)
    whole = np.full(view.shape, 255, np.uint8)
    try:
        _, matrix = cv2.findTransformECC(drawn, view, start, cv2.MOTION_HOMOGRAPHY, stop, whole, 3)
    except cv2.error:
        return None
    corner = square_corners(modules * scale) + _MARGIN * scale - 0.5
    return map_points(np.asarray(matrix, dtype=np.float64), corner)


def _bits(patch: npt.NDArray[np.float32], modules: int, scale: int) -> npt.NDArray[np.bool_]:
    """The symbol's modules as read off the picture; True is black."""
    m = _MARGIN * scale
    inner = patch[m:-m, m:-m].reshape(modules, scale, modules, scale)
    keep = slice(1, scale - 1)
    values = inner[:, keep, :, keep].mean((1, 3))
    local = cv2.blur(values.astype(np.float32), (7, 7))
    bits = values < local
    bits[:7, :7] = bits[:7, -7:] = bits[-7:, :7] = _FINDER > 0
    return np.asarray(bits, dtype=np.bool_)


def _drawn(bits: npt.NDArray[np.bool_], scale: int) -> Grey:
    """The pattern in pure black and white, with the quiet zone white."""
    whole = np.full((len(bits) + 2 * _MARGIN,) * 2, 255, np.uint8)
    whole[_MARGIN:-_MARGIN, _MARGIN:-_MARGIN][bits] = 0
    return np.kron(whole, np.ones((scale, scale), np.uint8))


def _finder_score(patch: npt.NDArray[np.float32], modules: int) -> float:
    """How well the three finder patterns lie where they should, -1..1, and the fourth corner does not."""
    edge = modules + 2 * _MARGIN
    values = cv2.resize(patch, (edge, edge), interpolation=cv2.INTER_AREA)[_MARGIN:-_MARGIN, _MARGIN:-_MARGIN]
    places = (values[:7, :7], values[:7, -7:], values[-7:, :7])
    scores = [
        float(np.corrcoef(-place.ravel(), _FINDER.ravel())[0, 1]) for place in places if place.std() > 1
    ]
    timing = values[6, 7:-7]
    beat = np.where(np.arange(len(timing)) % 2 == 1, 1.0, -1.0)
    if len(scores) < 3 or timing.std() < 1:
        return -1.0
    return 0.75 * min(scores) + 0.25 * float(np.corrcoef(-timing, -beat)[0, 1])
