"""A quick look at a small picture for the count pad: how many, where they lie, what to warn of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..label_code import code_in
from ..vision.outcome import Look, SeenPart
from .photograph import count_fields, is_sure, look_over, outline_shares
from .ports import Shop

LEAST_GAP_MM = 3.5
"""Measured: bolts of one length came out up to 2.5 mm apart in the sample's photos, look-alikes 4.5 mm."""
LOOK_ALIKE_MM = 10.0
LOOK_ALIKE_SHARE = 0.25
"""Lengths further apart than both of these no hand mixes up (practice C10)."""
MOST_CORNERS = 16


@dataclass(frozen=True, slots=True)
class QuickLook:
    """What a picture says at a glance; outlines are shares of its width and height; nothing is kept."""

    low: int
    count: int
    high: int
    is_sure: bool
    confidence: float
    method: str
    labels: tuple[str, ...]
    outlines: tuple[tuple[tuple[float, float], ...], ...]
    warning: str | None
    doubts: tuple[str, ...]


def quick_look(shop: Shop, picture: bytes, *, device: str) -> QuickLook:
    """Read a small picture, beside all photos that wait to be read.

    Raises:
        BadInputError: it cannot be read as a picture.
        StoreError: too many wait already.
    """
    return at_a_glance(look_over(shop, picture, device=device))


def at_a_glance(seen: Look) -> QuickLook:
    """Boil a reading down to what the count pad shows."""
    counted = count_fields(seen, "any") if seen.labels else None
    return QuickLook(
        low=seen.count.low,
        count=seen.count.count,
        high=seen.count.high,
        is_sure=is_sure(seen),
        confidence=counted["confidence"] if counted else 0.5,
        method=seen.method,
        labels=tuple(code for mark in seen.labels if (code := code_in(mark.text))),
        outlines=tuple(tuple(outline_shares(part, seen.size, MOST_CORNERS)) for part in seen.parts),
        warning=two_lengths(seen.parts),
        doubts=tuple(seen.unsure),
    )


def two_lengths(parts: Sequence[SeenPart]) -> str | None:
    """Warn of bolts in one bag whose lengths differ by little, so that a hand mixes them up."""
    sized = sorted((p.length_mm, p.plus_minus_mm or 0.0) for p in parts if p.length_mm is not None)
    pairs = list(pairwise(sized))
    if not pairs:
        return None
    place = max(range(len(pairs)), key=lambda k: pairs[k][1][0] - pairs[k][0][0])
    (short, short_pm), (long, long_pm) = pairs[place]
    gap = long - short
    alike = gap <= max(LOOK_ALIKE_MM, LOOK_ALIKE_SHARE * sized[-1][0])
    if not alike or gap < max(LEAST_GAP_MM, short_pm + long_pm):
        return None
    shorter, longer = ([length for length, _ in each] for each in (sized[: place + 1], sized[place + 1 :]))
    return (
        f"Two lengths seen: {len(shorter)} of about {_middle(shorter):.0f} mm and {len(longer)} of about "
        f"{_middle(longer):.0f} mm. Use a second bag, or number the holes."
    )


def _middle(lengths: Sequence[float]) -> float:
    return sum(lengths) / len(lengths)
