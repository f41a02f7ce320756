"""Whether the N·m of a record are what the manual prints."""

from __future__ import annotations

from .quantity import Quantity

ROUNDING_SHARE = 0.02
"""How far the N·m of the record may be from the printed figure before it is asked about (own choice)."""


def agrees(printed: Quantity, low: float | None, high: float | None) -> bool:
    """Tell whether the ends of a record in N·m are those printed, but for rounding; an unknown end agrees."""
    first, last = float(printed.low_newton_metres), float(printed.high_newton_metres)
    least, most = low if low is not None else first, high if high is not None else last
    if printed.is_single:
        return least * (1 - ROUNDING_SHARE) <= first <= most * (1 + ROUNDING_SHARE)
    near = (abs(end - true) <= ROUNDING_SHARE * true for end, true in ((least, first), (most, last)))
    return all(near)
