"""The records that a photo's reading is made of; never a method that looks at pixels."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

Image = npt.NDArray[Any]
"""An upright picture: height x width x 3, red green blue, uint8."""

Grey = npt.NDArray[Any]
"""An upright picture: height x width, uint8.  (`Any`: OpenCV's own types say no more.)"""

Points = npt.NDArray[np.float64]
"""n x 2 points as (x, y) pixels; the centre of the top-left pixel is (0, 0)."""

ReadCode = Callable[[str], str | None]
"""Turns a label's payload into its code, or into None when it is not one of ours."""


@dataclass(frozen=True, slots=True)
class Unusable:
    """Why a photo cannot be read, in one plain sentence with a way out; always false in a condition."""

    reason: str

    def __bool__(self) -> bool:
        return False


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """What the file itself says about a photo; `width` and `height` are those of the upright picture."""

    format: str
    width: int
    height: int
    orientation: int
    taken_text: str | None
    """EXIF DateTimeOriginal as the camera wrote it, `YYYY:MM:DD HH:MM:SS`: local time, zone unknown."""
    offset_text: str | None
    """EXIF OffsetTimeOriginal, `+HH:MM` or `-HH:MM`."""
    focal_mm: float | None
    focal_35mm: float | None


@dataclass(frozen=True, slots=True)
class Photo:
    """A decoded photo: its upright pixels and what its file says."""

    image: Image
    facts: PhotoFacts


@dataclass(frozen=True, slots=True, eq=False)
class LabelMark:
    """One QR symbol in a photo.

    `corners` is 4 x 2, (x, y) in pixels, in the symbol's own order: top left, top right, bottom right,
    bottom left; the outer corners of the symbol, without its quiet zone.
    """

    text: str
    corners: Points
    px_per_module: float | None


@dataclass(frozen=True, slots=True, eq=False)
class SeenPart:
    """One loose thing in the photo; sizes are None when they could not be measured."""

    kind: str
    """`hex_bolt`, `socket_screw`, `flange_bolt`, `bolt`, `hex_nut`, `washer` or `part` when unknown."""
    outline: Points
    label: int | None
    confidence: float
    length_mm: float | None = None
    head_mm: float | None = None
    shank_mm: float | None = None
    thread: str | None = None
    plus_minus_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Count:
    """How many parts: the best number and the interval that should hold the truth."""

    low: int
    count: int
    high: int


@dataclass(frozen=True, slots=True)
class Look:
    """All that one photo says, in pixels of the upright photo."""

    size: tuple[int, int]
    """Width and height in pixels."""
    facts: PhotoFacts
    labels: tuple[LabelMark, ...]
    codes: tuple[str | None, ...]
    parts: tuple[SeenPart, ...]
    count: Count
    unsure: tuple[str, ...]
    method: str
    """Which counting method and version made this, so that a later reading can be compared."""
    traces: tuple[float, ...] = field(default=())
    """Strength, 0..1, of each weak trace of a part that was not counted (`is_empty` weighs them)."""

    def to_json_dict(self, file_name: str) -> dict[str, Any]:
        """The object that `lastbolt look --json` prints for one photo."""
        return {
            "file": file_name,
            "size": list(self.size),
            "labels": [
                {"text": mark.text, "code": code, "corners": _rounded(mark.corners)}
                for mark, code in zip(self.labels, self.codes, strict=True)
            ],
            "parts": [_part_json(part) for part in self.parts],
            "count": {"low": self.count.low, "count": self.count.count, "high": self.count.high},
            "unsure": list(self.unsure),
        }


@dataclass(frozen=True, slots=True)
class Reading:
    """What one decoding gave: all that the photo says, and its small upright JPEG."""

    seen: Look
    preview: bytes


def _part_json(part: SeenPart) -> dict[str, Any]:
    return {
        "kind": part.kind,
        "outline": _rounded(part.outline),
        "label": part.label,
        "length_mm": part.length_mm,
        "head_mm": part.head_mm,
        "shank_mm": part.shank_mm,
        "thread": part.thread,
        "confidence": round(part.confidence, 3),
    }


def _rounded(points: Points) -> list[list[float]]:
    return [[round(float(x), 2), round(float(y), 2)] for x, y in points]
