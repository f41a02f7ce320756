"""One photo in, all that it says out: labels, parts, sizes, count, and what is unsure."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from lastbolt.vision.count import Counted, count_classical
from lastbolt.vision.decode import WARN_PX_PER_MODULE, find_labels
from lastbolt.vision.outcome import LabelMark, Look, Photo, ReadCode, SeenPart, Unusable
from lastbolt.vision.pixels import read_photo

DEFAULT_SYMBOL_MM = 25.0
_FIELD_MM = 340.0
"""Width of scene that a photo without a label is taken to show; common practice, no source."""


def _default_symbol_mm(text: str) -> float:
    return DEFAULT_SYMBOL_MM


def look(
    photo_bytes: bytes, read_code: ReadCode, *, symbol_mm: Callable[[str], float] = _default_symbol_mm
) -> Look | Unusable:
    """Read one photo whole. `symbol_mm` gives the printed edge of a label's symbol from its payload."""
    photo = read_photo(photo_bytes)
    if isinstance(photo, Unusable):
        return photo
    marks = find_labels(photo.image)
    counted = count_classical(photo.image, _mm_per_px(photo, marks, symbol_mm), [m.corners for m in marks])
    return Look(
        size=(photo.facts.width, photo.facts.height),
        facts=photo.facts,
        labels=tuple(marks),
        codes=tuple(read_code(mark.text) for mark in marks),
        parts=tuple(_with_label(part, marks) for part in counted.parts),
        count=counted.count,
        unsure=_doubts(marks, counted),
        method=counted.method,
        traces=counted.traces,
    )


def _mm_per_px(photo: Photo, marks: list[LabelMark], symbol_mm: Callable[[str], float]) -> float:
    if not marks:
        return _FIELD_MM / max(photo.facts.width, photo.facts.height)
    edges = [
        np.linalg.norm(m.corners - np.roll(m.corners, 1, 0), axis=1).mean() / symbol_mm(m.text) for m in marks
    ]
    return float(1.0 / np.median(edges))


def _doubts(marks: list[LabelMark], counted: Counted) -> tuple[str, ...]:
    doubts = list(counted.unsure)
    if not marks:
        doubts.append("no label was read, so sizes are unknown and the tray is not named")
    if any(m.px_per_module is not None and m.px_per_module < WARN_PX_PER_MODULE for m in marks):
        doubts.append("a label is small in the picture; go nearer")
    return tuple(doubts)


def _with_label(part: SeenPart, marks: list[LabelMark]) -> SeenPart:
    if not marks:
        return part
    middle = part.outline.mean(0)
    apart = [float(np.linalg.norm(middle - mark.corners.mean(0))) for mark in marks]
    return replace(part, label=int(np.argmin(apart)))
