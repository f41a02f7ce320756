"""Tightening orders: for a circle, for rows and columns, for any pattern, and the way back for loosening."""

import cmath
import math
from collections.abc import Sequence

from lastbolt.errors import BadInputError
from lastbolt.said import said
from lastbolt.torque.pattern import (
    MOST_HOLES,
    Pattern,
    PatternKind,
    closest_spacing,
    distances_from_middle,
    grid_pattern,
    holes_around,
    is_round,
    pattern_middle,
)

SUGGESTION_MARK = "Suggested order: the maker's manual first."


def circle_order(count: int) -> tuple[int, ...]:
    """An even order for holes 1…count round a circle: opposite pairs, then halve the angle, and again.

    Even counts take the order of half as many pairs; odd counts step by (count − 1)/2, the star of wheels.
    The unit vectors of the holes done never add up to more than 1. Gives the legacy orders of ASME PCC-1 for
    4, 8, 12, 16, 20 and 24 (12 read at wjlr.roverradio.com, others from memory); the halving is read at
    henniggasket.com. The maker's own order comes first. Valid from 1 to 500.

    >>> circle_order(8), circle_order(5)
    ((1, 5, 3, 7, 2, 6, 4, 8), (1, 3, 5, 2, 4))
    """
    if not 1 <= count <= MOST_HOLES:
        raise BadInputError(
            said("No order for {count} holes: give 1 to {most}.", count=count, most=MOST_HOLES)
        )
    return tuple(step + 1 for step in _halve(count))


def _halve(count: int) -> list[int]:
    if count % 2:
        stride = max((count - 1) // 2, 1)
        return [step * stride % count for step in range(count)]
    return [place for first in _halve(count // 2) for place in (first, first + count // 2)]


def grouped_circle_order(count: int, group_size: int) -> tuple[tuple[int, ...], ...]:
    """The order for a large flange where some neighbours at a time count as one hole.

    Source: 48 bolts as 12 groups, read at knm-hydraulikk.no. The size must divide the count.

    >>> grouped_circle_order(8, 2)
    ((1, 2), (5, 6), (3, 4), (7, 8))
    """
    if group_size < 1 or count % group_size:
        raise BadInputError(
            said(
                "{count} holes cannot be shared into groups of {group_size}: use a divisor.",
                count=count,
                group_size=group_size,
            )
        )
    groups = circle_order(count // group_size)
    return tuple(tuple(range((group - 1) * group_size + 1, group * group_size + 1)) for group in groups)


def spiral_order(pattern: Pattern) -> tuple[int, ...]:
    """From the middle outwards in rings, clockwise, each ring going on where the last one ended.

    Practice for rectangular covers and cylinder heads (from memory). A ring of a free pattern is as wide as
    the closest spacing; in rows and columns it holds equal distances.
    """
    spacing = closest_spacing(pattern)
    width = spacing if pattern.kind is PatternKind.FREE and spacing else 1e-6
    rings: dict[int, list[int]] = {}
    for hole, distance in distances_from_middle(pattern).items():
        rings.setdefault(round(distance / width), []).append(hole)
    turns = _turns(pattern)
    order: list[int] = []
    last = 0.0
    for _, ring in sorted(rings.items()):
        start = last
        ring.sort(key=lambda hole: (round((turns[hole] - start) % (2 * math.pi), 9), hole))
        order += ring
        last = turns[ring[-1]]
    return tuple(order)


def _turns(pattern: Pattern) -> dict[int, float]:
    """The clockwise angle of each hole around the middle, radians from the top."""
    x, y = pattern_middle(pattern)
    return {place.hole: math.atan2(place.x - x, y - place.y) for place in pattern.places}


def grid_order(rows: int, columns: int) -> tuple[int, ...]:
    """The order for rows × columns numbered row by row: crosswise for four, else the spiral from the middle.

    >>> grid_order(2, 3)[:2], grid_order(2, 2)
    ((2, 5), (1, 4, 2, 3))
    """
    return suggest_order(grid_pattern(rows, columns))


def suggest_order(pattern: Pattern) -> tuple[int, ...]:
    """An even order where the maker gives none: circle rules for about round patterns, else the spiral."""
    if not is_round(pattern):
        return spiral_order(pattern)
    around = holes_around(pattern)
    return tuple(around[step - 1] for step in circle_order(len(around)))


def loosening_order(order: Sequence[int]) -> tuple[int, ...]:
    """The order for loosening: the tightening order backwards (practice, from memory).

    >>> loosening_order((1, 3, 2, 4))
    (4, 2, 3, 1)
    """
    return tuple(reversed(order))


def largest_resultant(order: Sequence[int], count: int) -> float:
    """The greatest length of the summed unit vectors of the holes done so far, 1.0 for an even order.

    Plain circular order reaches about count/π. Holes are numbered 1…count around a circle.

    >>> round(largest_resultant((1, 3, 2, 4), 4), 3), round(largest_resultant((1, 2, 3, 4), 4), 2)
    (1.0, 1.41)
    """
    total, largest = 0j, 0.0
    for hole in order:
        total += cmath.exp(2j * math.pi * (hole - 1) / count)
        largest = max(largest, abs(total))
    return largest
