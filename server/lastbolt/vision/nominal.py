"""What sizes a measured part has by name, how sure that is, and look-alikes among parts of one picture."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lastbolt.torque.heads import spanner_sizes_mm
from lastbolt.vision.outcome import SeenPart

LENGTH_STEP_MM = 5
_SHORT_STEPS_MM = (8, 10, 12, 16, 20, 25)
LEAST_GAP_MM = 4.0
"""Measured: bolts of one length came out up to 3.8 mm apart in the sample's photos, look-alikes 4.2 mm."""
LOOK_ALIKE_MM = 10.0
LOOK_ALIKE_SHARE = 0.25
"""Lengths further apart than both of these no hand mixes up (practice C10)."""


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
    """Bolts of two lengths seen together that are easily swapped; `numbers` count the parts of each."""

    sizes: tuple[str, str]
    numbers: tuple[int, int]

    def sentence(self) -> str:
        """Say it as it is shown while bagging."""
        (one, other), (few, many) = self.sizes, self.numbers
        return (
            f"Two lengths seen: {few} of {one} and {many} of {other}. Use a second bag, or number the holes."
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


def look_alikes(parts: Sequence[SeenPart]) -> LookAlike | None:
    """Bolts of one picture whose lengths differ by more than they scatter, and by so little that a hand errs.

    What puts all lengths of a picture off (scale, lip, lens) puts them off alike: the two ± add in squares.
    Of 32 rendered pictures of the development photos' make (seeds 100, 9111) 11 of 18 mixed ones are called
    out, and none of 14 others.

    Threads are not told apart here: of 13 pictures of 204 in which two threads of one length seemed to lie, 9
    held one (rendered photos).
    """
    sized = sorted((p.length_mm, p.plus_minus_mm or 0.0) for p in parts if p.length_mm is not None)
    pairs = list(pairwise(sized))
    if not pairs:
        return None
    place = max(range(len(pairs)), key=lambda k: pairs[k][1][0] - pairs[k][0][0])
    (short, short_pm), (long, long_pm) = pairs[place]
    gap = long - short
    alike = gap <= max(LOOK_ALIKE_MM, LOOK_ALIKE_SHARE * sized[-1][0])
    if not alike or gap < max(LEAST_GAP_MM, math.hypot(short_pm, long_pm)):
        return None
    shorter, longer = ([length for length, _ in each] for each in (sized[: place + 1], sized[place + 1 :]))
    said = tuple(f"about {sum(each) / len(each):.0f} mm" for each in (shorter, longer))
    return LookAlike((said[0], said[1]), (len(shorter), len(longer)))


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
