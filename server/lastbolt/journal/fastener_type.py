"""What kind of fastener a piece is, and the short way to write it (`M8x1.25x30`, `M12x1.5x12/nut`)."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from .envelope import LengthMm, Name, Record

FastenerKind = Literal["bolt", "nut", "stud", "screw", "washer", "pin", "clip", "clamp", "rivet", "other"]
METRIC = re.compile(
    r"^M(?P<d>\d+(?:[.,]\d+)?)(?:x(?P<a>\d+(?:[.,]\d+)?))?(?:x(?P<b>\d+(?:[.,]\d+)?))?"
    r"(?:/(?P<kind>[a-z]+))?(?:\s+(?P<cls>\d{1,2}\.\d{1,2}|\d{1,2}))?$",
    re.IGNORECASE,
)
INCH = re.compile(
    r"^(?P<n>\d+)/(?P<d>\d+)-(?P<tpi>\d+)(?:x(?P<l>\d+(?:[.,]\d+)?))?(?:/(?P<kind>[a-z]+))?$", re.IGNORECASE
)
MM_PER_INCH = 25.4


class FastenerType(Record):
    """Kind, thread and length of one fastener; unknown measures are null."""

    kind: FastenerKind = "bolt"
    diameter_mm: LengthMm | None = None
    pitch_mm: LengthMm | None = None
    length_mm: LengthMm | None = Field(default=None, description="under the head to the tip")
    strength_class: Name | None = None
    part_number: Name | None = None

    def __str__(self) -> str:
        """Write the type the short way.

        >>> str(FastenerType(diameter_mm=8, pitch_mm=1.25, length_mm=30))
        'M8x1.25x30'
        """
        if self.diameter_mm is None:
            return self.part_number or self.kind
        numbers = "x".join(
            f"{v:g}" for v in (self.diameter_mm, self.pitch_mm, self.length_mm) if v is not None
        )
        kind = "" if self.kind == "bolt" else f"/{self.kind}"
        tail = "".join(f" {v}" for v in (self.strength_class, self.part_number) if v)
        return f"M{numbers}{kind}{tail}"


def type_from_text(value: object) -> object:
    """Turn the short way of writing into fields; anything else passes on to the model.

    Text that is no thread (`A211-8D`) is taken as a part number.
    """
    if not isinstance(value, str):
        return value
    text = value.strip()
    inch = INCH.match(text)
    if inch:
        length = inch["l"]
        return {
            "kind": inch["kind"] or "bolt",
            "diameter_mm": round(int(inch["n"]) / max(int(inch["d"]), 1) * MM_PER_INCH, 3),
            "pitch_mm": round(MM_PER_INCH / max(int(inch["tpi"]), 1), 4),
            "length_mm": round(_number(length) * MM_PER_INCH, 2) if length else None,
        }
    metric = METRIC.match(text)
    if not metric:
        return {"part_number": text or None}
    return _from_metric(metric)


def _from_metric(found: re.Match[str]) -> dict[str, object]:
    first, second = found["a"], found["b"]
    pitch, length = (first, second) if second else (None, first)
    return {
        "kind": (found["kind"] or "bolt").lower(),
        "diameter_mm": _number(found["d"]),
        "pitch_mm": _number(pitch) if pitch else None,
        "length_mm": _number(length) if length else None,
        "strength_class": found["cls"],
    }


def _number(text: str) -> float:
    return float(text.replace(",", "."))


Typed = Annotated[FastenerType, BeforeValidator(type_from_text)]
"""A fastener type, given as fields or the short way."""
