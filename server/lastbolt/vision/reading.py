"""One photo read to the end: all that it says and its preview; and that reading as plain text and back."""

import json
from dataclasses import asdict
from typing import Any

import numpy as np

from lastbolt.vision.look import look_since
from lastbolt.vision.outcome import (
    Count,
    LabelMark,
    Look,
    PhotoFacts,
    Points,
    ReadCode,
    Reading,
    SeenPart,
    Unusable,
)
from lastbolt.vision.pixels import preview, read_photo


def read_whole(
    photo_bytes: bytes, read_code: ReadCode, *, preview_edge_px: int, earlier: bytes | None = None
) -> Reading | Unusable:
    """Decode a photo once, look at it and make its preview; or say in one sentence why it cannot be read.

    `earlier` is a photo of the same tray when it was empty: see `look.look_since`.
    """
    photo = read_photo(photo_bytes)
    if isinstance(photo, Unusable):
        return photo
    return Reading(look_since(photo, read_code, earlier), preview(photo.image, preview_edge_px))


def look_to_json(seen: Look) -> bytes:
    """Write all that a photo says as JSON; arrays become lists, numbers keep every digit."""
    return json.dumps(asdict(seen), default=lambda array: array.tolist()).encode()


def look_from_json(text: bytes) -> Look:
    """Read what `look_to_json` wrote.

    Raises:
        ValueError, TypeError, KeyError: it is nothing of the kind.
    """
    raw: dict[str, Any] = json.loads(text)
    width, height = raw["size"]
    return Look(
        size=(int(width), int(height)),
        facts=PhotoFacts(**raw["facts"]),
        labels=tuple(LabelMark(**{**mark, "corners": _points(mark["corners"])}) for mark in raw["labels"]),
        codes=tuple(raw["codes"]),
        parts=tuple(SeenPart(**{**part, "outline": _points(part["outline"])}) for part in raw["parts"]),
        count=Count(**raw["count"]),
        unsure=tuple(raw["unsure"]),
        method=str(raw["method"]),
        traces=tuple(raw["traces"]),
    )


def _points(rows: list[list[float]]) -> Points:
    return np.array(rows, dtype=np.float64).reshape(-1, 2)
