"""What sizes a measured part has by name, how sure that is, and look-alikes among parts of one picture."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lastbolt.torque.heads import spanner_sizes_mm
from lastbolt.vision.outcome import SeenPart

LENGTH_STEP_MM = 5
_SHORT_STEPS_MM = (8, 10, 12, 16, 20, 25)
_LEAST_PARTS = 2
_LEAST_SURE = 0.7
_LEAST_CONFIDENCE = 0.5
_BOLTS = ("hex_bolt", "socket_screw", "flange_bolt", "bolt")


@dataclass(frozen=True, slots=True)
class Nominal:
    """The named size nearest to what was measured; None where the picture does not tell.

    `length_mm` is the nearest of the preferred lengths (8, 10, 12, 16, 20, 25, then steps of 5 mm; ISO 888 as
    remembered) and `length_sure` the chance, 0..1, that a true length of the measured value and plus or minus
    falls nearest to it. `spanners_mm` are the widths across flats that the thread's heads have in the torque
    module's tables.
    """

    kind: str
    thread: str | None
    length_mm: int | None
    length_sure: float
    spanners_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class LookAlike:
    """Two sizes of one kind seen together that are easily swapped; `numbers` count the parts of each."""

    kind: str
    what: str
    """`length` or `thread`."""
    sizes: tuple[str, str]
    numbers: tuple[int, int]

    def sentence(self) -> str:
        """Say it as it is shown while bagging."""
        one, other = self.sizes
        return (
            f"Two {self.what}s in one picture: {self.numbers[0]} x {one} and {self.numbers[1]} x {other}. "
            "They look alike; keep them apart or note which goes where."
        )


def nominal(part: SeenPart) -> Nominal:
    """The named sizes of one part of a `Look`; an estimate, to be confirmed by hand.

    >>> import numpy as np
    >>> seen = SeenPart("hex_bolt", np.zeros((4, 2)), 0, 0.9, 24.4, 9.9, 6.1, "M6", 1.4)
    >>> nominal(seen).thread, nominal(seen).length_mm
    ('M6', 25)
    """
    spanners = sorted(spanner_sizes_mm(float(part.thread[1:]))) if part.thread else []
    length, sure = _nearest_length(part.length_mm, part.plus_minus_mm)
    return Nominal(part.kind, part.thread, length, sure, tuple(float(mm) for mm in spanners))


def look_alikes(parts: Sequence[SeenPart]) -> tuple[LookAlike, ...]:
    """Bolts of one picture that differ by one size only: two lengths of a thread, or two threads of a length.

    Only parts whose size is fairly sure take part, and a size is named only when two parts or more show it:
    a lone misreading must not cry wolf. Each entry's `sentence` is ready to be shown.
    """
    sure = [(part, nominal(part)) for part in parts if _counts(part)]
    found = []
    for what in ("length", "thread"):
        groups: dict[str, dict[str, int]] = {}
        for _, size in sure:
            length, thread = f"{size.length_mm} mm", str(size.thread)
            shared, own = (thread, length) if what == "length" else (length, thread)
            numbers = groups.setdefault(shared, {})
            numbers[own] = numbers.get(own, 0) + 1
        for numbers in groups.values():
            firm = sorted((n, own) for own, n in numbers.items() if n >= _LEAST_PARTS)
            if len(firm) >= 2:
                (few, one), (many, other) = firm[-2], firm[-1]
                found.append(LookAlike("bolt", what, (other, one), (many, few)))
    return tuple(found)


def _counts(part: SeenPart) -> bool:
    if part.kind not in _BOLTS or part.thread is None or part.confidence < _LEAST_CONFIDENCE:
        return False
    return nominal(part).length_sure >= _LEAST_SURE


def _nearest_length(length_mm: float | None, plus_minus_mm: float | None) -> tuple[int | None, float]:
    if length_mm is None:
        return None, 0.0
    steps = [*_SHORT_STEPS_MM, *range(30, 305, LENGTH_STEP_MM)]
    best = min(steps, key=lambda step: abs(step - length_mm))
    place = steps.index(best)
    low = (steps[place - 1] + best) / 2 if place else 0.0
    high = (best + steps[place + 1]) / 2 if place + 1 < len(steps) else math.inf
    sigma = max(0.2, (plus_minus_mm or 2.0) / 2)
    sure = _below((high - length_mm) / sigma) - _below((low - length_mm) / sigma)
    return best, round(sure, 3)


def _below(z: float) -> float:
    return 0.5 * (1 + math.erf(z / math.sqrt(2)))
