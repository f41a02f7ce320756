"""The classical separation of parts from a floor: robust background, difference, components; no learning."""

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.outcome import Grey, Image, Points

WORK_MM_PER_PX = 0.4
_LEAST_AREA_MM2 = 30.0
_MOST_AREA_MM2 = 2600.0
_LONGEST_MM = 110.0


@dataclass(frozen=True, slots=True, eq=False)
class Blob:
    """One thing that stands out from the floor, in pixels of the picture it was found in."""

    outline: Points
    area_mm2: float
    solidity: float
    contrast: float
    """Mean difference from the floor, in CIE L*a*b* units."""


def separate(image: Image, mm_per_px: float, labels: list[Points]) -> list[Blob]:
    """Things that stand out from a plain floor, by their difference from a wide median of the picture.

    Reaches all of the parts on matte plain floors and about half of the photos on textured ones; joined
    parts come out as one blob.
    """
    scale = mm_per_px / WORK_MM_PER_PX
    small = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    apart = _difference(small)
    mask = _foreground(apart, _label_mask(small.shape[:2], [(c + 0.5) * scale - 0.5 for c in labels]))
    contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    blobs = [_blob(contour, apart, scale) for contour in contours if _may_be_part(contour, mask.shape)]
    return [blob for blob in blobs if blob.contrast > 14.0]


def _difference(small: Image) -> npt.NDArray[np.float32]:
    lab = cv2.cvtColor(small, cv2.COLOR_RGB2LAB)
    window = int(34 / WORK_MM_PER_PX) | 1
    half = cv2.resize(lab, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    floor = cv2.resize(cv2.medianBlur(half, (window // 2) | 1), (lab.shape[1], lab.shape[0]))
    apart = lab.astype(np.float32) - floor
    darker = np.clip(-apart[..., 0], 0, None) * 0.45  # a shadow is darker and of the floor's own colour
    lighter = np.clip(apart[..., 0], 0, None) * 0.7
    colour = np.hypot(apart[..., 1], apart[..., 2]) * 1.2
    slope = cv2.morphologyEx(lab[..., 0], cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8)).astype(np.float32)
    return np.asarray(darker + lighter + colour + 0.25 * cv2.blur(slope, (5, 5)), dtype=np.float32)


def _label_mask(shape: tuple[int, ...], labels: list[Points]) -> Grey:
    """Where the labels' paper lies: the symbol with quiet zone on all sides and room for a line of text."""
    mask = np.zeros(shape, np.uint8)
    for corners in labels:
        middle = corners.mean(0)
        cv2.fillConvexPoly(mask, np.round(middle + (corners - middle) * 1.55).astype(np.int32), 1)
    return mask


def _foreground(apart: npt.NDArray[np.float32], label: Grey) -> Grey:
    calm = apart[label == 0]
    spread = float(np.median(np.abs(calm - np.median(calm)))) * 1.4826
    limit = max(11.0, float(np.median(calm)) + 4.0 * spread)
    mask = ((apart > limit) & (label == 0)).astype(np.uint8)
    mask = cv2.morphologyEx(mask, cv2.MORPH_CLOSE, np.ones((5, 5), np.uint8))
    mask = cv2.morphologyEx(mask, cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))
    return np.asarray(mask, dtype=np.uint8)


def _may_be_part(contour: npt.NDArray[Any], shape: tuple[int, ...]) -> bool:
    area = cv2.contourArea(contour) * WORK_MM_PER_PX**2
    (_, _), size, _ = cv2.minAreaRect(contour)
    x, y, w, h = cv2.boundingRect(contour)
    inside = x > 1 and y > 1 and x + w < shape[1] - 1 and y + h < shape[0] - 1
    return inside and _LEAST_AREA_MM2 < area < _MOST_AREA_MM2 and max(size) * WORK_MM_PER_PX < _LONGEST_MM


def _blob(contour: npt.NDArray[Any], apart: npt.NDArray[np.float32], scale: float) -> Blob:
    x, y, w, h = cv2.boundingRect(contour)
    inside = np.zeros((h, w), np.uint8)
    cv2.drawContours(inside, [contour - np.array([x, y], dtype=np.int32)], 0, 1, cv2.FILLED)
    hull = cv2.contourArea(cv2.convexHull(contour))
    area = cv2.contourArea(contour)
    points = cv2.approxPolyDP(contour, 0.8, True)[:, 0].astype(np.float64)
    return Blob(
        outline=(points + 0.5) / scale - 0.5,
        area_mm2=area * WORK_MM_PER_PX**2,
        solidity=area / max(hull, 1.0),
        contrast=float(apart[y : y + h, x : x + w][inside > 0].mean()),
    )
