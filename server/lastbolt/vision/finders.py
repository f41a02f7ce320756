"""Finder patterns of QR symbols (a square in a ring), so that a reader knows whether it has seen them all."""

import cv2
import numpy as np

from lastbolt.vision.outcome import Grey, Points
from lastbolt.vision.scale import within

_WORK_EDGE_PX = 1600


_MOST_REGIONS = 8
_BUSY_PX = 56
_STEP = 45
_LEAST_BUSY = 0.15


def unexplained_finders(grey: Grey, symbols: list[Points]) -> bool:
    """Whether at least two finder patterns of like size lie outside all the symbols that were read."""
    return bool(unread_regions(grey, symbols))


def unread_regions(grey: Grey, symbols: list[Points]) -> list[tuple[int, int, int, int]]:
    """Where two finder patterns of like size lie outside all the symbols read: (left, top, right, bottom) px.

    Each is wide enough for the symbol on any side of the two; at most eight, those that overlap only once.
    """
    small, scale = within(grey, _WORK_EDGE_PX)
    known = [_grown(corners * scale).astype(np.float32) for corners in symbols]
    lone = [
        (x, y, size)
        for x, y, size in _finder_patterns(small)
        if not any(cv2.pointPolygonTest(quad, (x, y), False) >= 0 for quad in known)
    ]
    pairs = [(a, b) for i, a in enumerate(lone) for b in lone[:i] if _are_one_symbol(a, b)]
    regions: list[tuple[int, int, int, int]] = []
    for one, other in pairs:
        middle = (np.array(one[:2]) + np.array(other[:2])) / 2
        if any(r[0] < middle[0] / scale < r[2] and r[1] < middle[1] / scale < r[3] for r in regions):
            continue
        reach = 1.25 * float(np.hypot(one[0] - other[0], one[1] - other[1])) + 2.0 * max(one[2], other[2])
        low = np.floor((middle - reach) / scale).astype(int).clip(0)
        high = np.minimum(np.ceil((middle + reach) / scale).astype(int), grey.shape[::-1])
        regions.append((int(low[0]), int(low[1]), int(high[0]), int(high[1])))
    return regions[:_MOST_REGIONS]


def busy_regions(grey: Grey) -> list[tuple[int, int, int, int]]:
    """The four places with the most black beside white: a symbol may hide there, its finders washed out."""
    small, scale = within(grey, _WORK_EDGE_PX)
    calm = cv2.GaussianBlur(small, (3, 3), 0)
    steps = cv2.morphologyEx(calm, cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
    busy = cv2.boxFilter((steps > _STEP).astype(np.float32), -1, (_BUSY_PX, _BUSY_PX))
    regions = []
    for _ in range(4):
        _, most, _, (x, y) = cv2.minMaxLoc(busy)
        if most < _LEAST_BUSY:
            break
        low = np.array([x - 1.6 * _BUSY_PX, y - 1.6 * _BUSY_PX])
        box = (np.r_[low, low + 3.2 * _BUSY_PX] / scale).astype(int).clip(0, np.tile(grey.shape[::-1], 2))
        regions.append((int(box[0]), int(box[1]), int(box[2]), int(box[3])))
        cv2.circle(busy, (x, y), 2 * _BUSY_PX, 0.0, -1)
    return regions


def _grown(corners: Points) -> Points:
    middle = corners.mean(0)
    return np.asarray(middle + (corners - middle) * 1.15, dtype=np.float64)


def _are_one_symbol(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    """Alike in size, and 2 to 8 finder widths apart (14 to 50 modules along an edge)."""
    size = (a[2] + b[2]) / 2
    apart = float(np.hypot(a[0] - b[0], a[1] - b[1]))
    return 0.6 < a[2] / b[2] < 1.67 and 1.6 * size < apart < 9.0 * size


def _finder_patterns(grey: Grey) -> list[tuple[float, float, float]]:
    """Centre and outer edge of each dark square within a light ring within a dark ring."""
    block = max(15, (max(grey.shape) // 30) | 1)
    calm = cv2.GaussianBlur(grey, (3, 3), 0)
    dark = cv2.adaptiveThreshold(calm, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, block, 7)
    contours, tree = cv2.findContours(dark, cv2.RETR_TREE, cv2.CHAIN_APPROX_SIMPLE)
    if tree is None:
        return []
    found = []
    for i, (_, _, child, parent) in enumerate(tree[0]):
        if child >= 0 or parent < 0 or tree[0][parent][3] < 0:
            continue
        square, ring = cv2.contourArea(contours[i]), cv2.contourArea(contours[parent])
        outer = cv2.contourArea(contours[tree[0][parent][3]])
        if square < 8 or not (1.5 < ring / square < 9.0 and 1.05 < outer / ring < 4.0):
            continue
        (x, y), (w, h), _ = cv2.minAreaRect(contours[i])
        if min(w, h) > 0.4 * max(w, h) and square > 0.65 * w * h:
            found.append((float(x), float(y), float(np.sqrt(outer))))
    return found
