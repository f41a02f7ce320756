"""A cleared tray against an earlier photo of it: what stands there now that did not stand there then."""

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.corners import homography, map_points
from lastbolt.vision.decode import find_labels
from lastbolt.vision.outcome import Grey, Image, Photo, Points, Unusable

_WORK_EDGE_PX = 900
_LEAST_AREA_MM2 = 25.0
_STRONG = 2.6
"""Edge strength, in multiples of the photo's own usual edge, from which an edge counts as something."""

Matrix = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Outlines (x, y pixels of the photo now) of what is new since the earlier photo."""

    new: tuple[Points, ...]

    @property
    def empty(self) -> bool:
        """Whether nothing new stands in the tray."""
        return not self.new


def compare_empty(now: Photo, earlier: Photo, *, symbol_mm: float = 25.0) -> Comparison | Unusable:
    """Lay an earlier photo of the empty tray over the one taken now, by a label that both show.

    Light may differ, so edges are compared and not colours: an edge counts as new when the earlier photo has
    none nearby. Unusable without a common label or when the two photos cannot be laid over each other.
    """
    marks = {mark.text: mark.corners for mark in find_labels(now.image)}
    pairs = [(mark.corners, marks[mark.text]) for mark in find_labels(earlier.image) if mark.text in marks]
    if not pairs:
        return Unusable(
            "The two photos show no label in common; take the tray with its label in the picture."
        )
    before, after = (np.concatenate([pair[k] for pair in pairs]) for k in (0, 1))
    scale = min(1.0, _WORK_EDGE_PX / max(now.image.shape[:2]))
    grey, old = _grey(now.image, scale), _grey(earlier.image, scale)
    rough = homography((after + 0.5) * scale - 0.5, (before + 0.5) * scale - 0.5)
    matrix = _aligned(grey, old, rough)
    if matrix is None:
        return Unusable(
            "The two photos could not be laid over each other; take it from nearly the same place."
        )
    size = (grey.shape[1], grey.shape[0])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    laid = cv2.warpPerspective(old, matrix, size, flags=flags, borderMode=cv2.BORDER_REPLICATE)
    edge_px = float(np.linalg.norm(after - np.roll(after, 1, 0), axis=1)[: len(after)].min()) * scale
    found = _new_blobs(_edges(grey), _edges(np.asarray(laid)), (symbol_mm / edge_px) ** 2)
    return Comparison(tuple((points + 0.5) / scale - 0.5 for points in found))


def _grey(image: Image, scale: float) -> Grey:
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY)
    return cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA) if scale < 1 else grey


def _aligned(grey: Grey, old: Grey, rough: Matrix) -> Matrix | None:
    """The map from the photo now to the earlier one, by enhanced correlation from a rough start."""
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 60, 1e-5)
    everywhere = np.full(old.shape, 255, np.uint8)
    try:
        likeness, matrix = cv2.findTransformECC(
            grey, old, rough.astype(np.float32), cv2.MOTION_HOMOGRAPHY, stop, everywhere, 7
        )
    except cv2.error:
        return None
    moved = np.asarray(matrix, dtype=np.float64)
    height, width = grey.shape
    frame = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)
    wander = np.abs(map_points(moved, frame) - map_points(rough, frame)).max()
    return moved if likeness > 0.5 and wander < 0.25 * width else None


def _edges(grey: Grey) -> npt.NDArray[np.float32]:
    """Slope of the picture in multiples of what is usual in it."""
    calm = cv2.GaussianBlur(grey, (0, 0), 1.2).astype(np.float32)
    slope = np.hypot(cv2.Sobel(calm, cv2.CV_32F, 1, 0), cv2.Sobel(calm, cv2.CV_32F, 0, 1))
    usual = float(np.percentile(slope, 80)) + 2.0
    return np.asarray(slope / usual, dtype=np.float32)


def _new_blobs(
    now: npt.NDArray[np.float32], then: npt.NDArray[np.float32], mm2_per_px: float
) -> list[Points]:
    near = cv2.dilate(then, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (13, 13)))
    new = ((now > _STRONG) & (now > 2.5 * near)).astype(np.uint8)
    joined = cv2.morphologyEx(new, cv2.MORPH_CLOSE, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (11, 11)))
    contours, _ = cv2.findContours(joined, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    hulls = [cv2.convexHull(contour)[:, 0] for contour in contours]
    return [
        np.asarray(hull, dtype=np.float64)
        for hull in hulls
        if len(hull) > 2 and cv2.contourArea(hull.astype(np.float32)) * mm2_per_px > _LEAST_AREA_MM2
    ]
