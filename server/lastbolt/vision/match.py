"""Which type of fastener a measured part may be: where does this one go?"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

_BY_GAUGE_MM = (0.3, 1.0, 0.4)
_BY_PHOTO_MM = (0.6, 1.5, 0.8)
"""Doubt of shank, length and head; a photo taken in a shop is 1 to 1.5 mm off (practice 8.1)."""
_WORST_SCORE = 9.0
_MOST_SHOWN = 3
_MISSING_PRIOR, _SAME_ZONE_PRIOR = 10.0, 2.0


@dataclass(frozen=True, slots=True)
class Measured:
    """One part as measured, by gauge or in a photo; None is unknown and does not count."""

    kind: str | None
    shank_mm: float | None
    length_mm: float | None
    head_mm: float | None
    in_photo: bool = False


@dataclass(frozen=True, slots=True)
class Candidate:
    """One type of fastener of an open job; `name` is whatever the caller knows it by."""

    name: str
    kind: str | None
    shank_mm: float | None
    length_mm: float | None
    head_mm: float | None
    missing: bool
    """It has an empty hole, an unknown hole or an open loss."""
    same_zone: bool


@dataclass(frozen=True, slots=True)
class Match:
    """A candidate with its misfit (sum of squared deviations) and its share among those shown."""

    candidate: Candidate
    score: float
    share: float


def rank(measured: Measured, candidates: Sequence[Candidate]) -> list[Match]:
    """At most three candidates that fit, the likeliest first; none when nothing fits.

    The misfit is the sum of ((measured - type) / sigma)^2 with sigma 0.3 mm for the shank, 1.0 mm for the
    length and 0.4 mm for the head by gauge, and 0.6, 1.5 and 0.8 mm in a photo; a type that misses a part
    counts ten times, one of the same zone twice.

    >>> six = Candidate("cover", "hex_bolt", 6.0, 20.0, 10.0, missing=True, same_zone=False)
    >>> [m.candidate.name for m in rank(Measured("hex_bolt", 6.1, 20.4, 9.9), [six])]
    ['cover']
    >>> rank(Measured("hex_bolt", 8.0, 40.0, 13.0), [six])
    []
    """
    fitting = [(one, score) for one in candidates if (score := _misfit(measured, one)) is not None]
    weights = [
        (one, score, math.exp(-score / 2) * _prior(one)) for one, score in fitting if score < _WORST_SCORE
    ]
    total = sum(weight for _, _, weight in weights)
    ordered = sorted(weights, key=lambda row: (-row[2], row[0].name))[:_MOST_SHOWN]
    return [Match(one, round(score, 3), weight / total) for one, score, weight in ordered]


def _prior(candidate: Candidate) -> float:
    missing = _MISSING_PRIOR if candidate.missing else 1.0
    return missing * (_SAME_ZONE_PRIOR if candidate.same_zone else 1.0)


def _misfit(measured: Measured, candidate: Candidate) -> float | None:
    """None when the kinds exclude each other or nothing can be compared."""
    if measured.kind and candidate.kind and measured.kind != candidate.kind:
        return None
    shank, length, head = _BY_PHOTO_MM if measured.in_photo else _BY_GAUGE_MM
    rows = (
        (measured.shank_mm, candidate.shank_mm, shank),
        (measured.length_mm, candidate.length_mm, length),
        (measured.head_mm, candidate.head_mm, head),
    )
    known = [((a - b) / sigma) ** 2 for a, b, sigma in rows if a is not None and b is not None]
    return sum(known) if known else None
