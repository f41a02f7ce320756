"""From an upright picture to the loose parts in it, with an interval for their number."""

from dataclasses import dataclass

import numpy as np

from lastbolt.vision.outcome import Count, Image, Points, SeenPart
from lastbolt.vision.separate import Blob, separate


@dataclass(frozen=True, slots=True, eq=False)
class Counted:
    """The parts of one picture, their number as an interval, and why that may be wrong."""

    parts: tuple[SeenPart, ...]
    count: Count
    unsure: tuple[str, ...]
    method: str
    traces: tuple[float, ...] = ()


def count_classical(image: Image, mm_per_px: float, labels: list[Points]) -> Counted:
    """Count by difference from the floor: the measured baseline, and the fallback without learned weights."""
    blobs = separate(image, mm_per_px, labels)
    parts = tuple(_part(blob) for blob in blobs)
    joined = sum(1 for blob in blobs if blob.solidity < 0.7 or blob.area_mm2 > 900)
    faint = sum(1 for part in parts if part.confidence < 0.5)
    unsure = ["counted without the learned reader; touching parts may be counted as one"] if parts else []
    if joined:
        unsure.append(f"{joined} outlines may hold several touching parts")
    number = len(parts)
    return Counted(parts, Count(number - faint, number, number + 2 * joined), tuple(unsure), "classical-1")


def _part(blob: Blob) -> SeenPart:
    confidence = float(np.clip(blob.contrast / 60.0, 0.05, 0.95)) * (0.6 + 0.4 * blob.solidity)
    return SeenPart("part", blob.outline, None, confidence)
