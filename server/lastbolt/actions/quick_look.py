"""A quick look at a small picture for the count pad: how many, where they lie, what to warn of."""

from __future__ import annotations

from dataclasses import dataclass

from ..label_code import code_in
from ..vision.nominal import look_alikes
from ..vision.outcome import Look
from .photograph import count_fields, is_sure, look_over, outline_shares
from .ports import Shop

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
    alike = look_alikes(seen.parts)
    return QuickLook(
        low=seen.count.low,
        count=seen.count.count,
        high=seen.count.high,
        is_sure=is_sure(seen),
        confidence=counted["confidence"] if counted else 0.5,
        method=seen.method,
        labels=tuple(code for mark in seen.labels if (code := code_in(mark.text))),
        outlines=tuple(tuple(outline_shares(part, seen.size, MOST_CORNERS)) for part in seen.parts),
        warning=alike.sentence() if alike else None,
        doubts=tuple(seen.unsure),
    )
