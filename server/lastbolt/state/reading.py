"""What a picture shows of a container, beside what is logged."""

from __future__ import annotations

from typing import NamedTuple

from .fastener_set import Act


class Reading(NamedTuple):
    """What a picture of a container shows: an interval, the best number in it, how sure."""

    act: Act
    photo: str | None
    low: int
    n: int
    high: int
    confidence: float

    def holds(self, logged: int) -> bool:
        """Tell whether a logged number fits it; one without an interval must be met exactly."""
        return self.low <= logged <= self.high and (self.low != self.high or logged == self.n)
