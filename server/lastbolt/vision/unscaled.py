"""How large the scene is when no label says it: the width at which the next one shows the same parts too."""

from collections.abc import Callable, Sequence

import numpy as np

from lastbolt.vision.outcome import SeenPart

FIELDS_MM = (45.0, 65.0, 90.0, 130.0, 190.0, 270.0, 390.0)
"""Widths of scene that are tried; common practice, no source."""
WIDEST_MM = 540.0
"""Tried only where one of the two widest is in question, for it costs as much as all the others."""
USUAL_MM = 340.0
_SAME = 0.6
_Reading = Sequence[SeenPart]


def likely_field(read: Callable[[float], _Reading]) -> float:
    """Width of the scene in mm, from what `read` sees in the picture taken to be that wide.

    A part that is really there is seen in the same place at the next width too. What thread and grain are
    taken for at a width far too large falls apart differently at each, and counts against that width. Where
    nothing is seen twice, the clearest reading is taken; where nothing is seen at all, the usual width.
    """
    fields = list(FIELDS_MM)
    readings = [read(field) for field in fields]
    scores = _scores(readings)
    if scores.index(max(scores)) >= len(fields) - 2 and any(readings):
        fields.append(WIDEST_MM)
        readings.append(read(WIDEST_MM))
        scores = _scores(readings)
    if max(scores) <= 0:
        scores = [_clarity(reading) for reading in readings]
    return fields[scores.index(max(scores))] if any(readings) else USUAL_MM


def _scores(readings: Sequence[_Reading]) -> list[float]:
    """For each width the clarity of what the one before or behind it sees too, less the rest's confidence."""
    return [
        sum(
            part.confidence - 0.5 if _is_among(part, [*before, *behind]) else -part.confidence
            for part in reading
        )
        for before, reading, behind in zip([(), *readings[:-1]], readings, [*readings[1:], ()], strict=True)
    ]


def _clarity(reading: _Reading) -> float:
    return sum(part.confidence - 0.5 for part in reading)


def _is_among(part: SeenPart, others: Sequence[SeenPart]) -> bool:
    return any(other.confidence > 0.5 and _overlap(part, other) >= _SAME for other in others)


def _overlap(one: SeenPart, other: SeenPart) -> float:
    """Shared area of the boxes around two outlines, of the area that they cover together (0 to 1)."""
    low, high = zip(*((part.outline.min(0), part.outline.max(0)) for part in (one, other)), strict=True)
    shared = float(np.prod(np.maximum(np.minimum(*high) - np.maximum(*low), 0.0)))
    areas = [float(np.prod(b - a)) for a, b in zip(low, high, strict=True)]
    return shared / max(sum(areas) - shared, 1e-9)
