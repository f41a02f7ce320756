"""Where the holes of a set lie: on a circle, in rows and columns, or free; x to the right, y downwards."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum

from lastbolt.errors import BadInputError
from lastbolt.said import said

MOST_HOLES = 500
ROUND_ENOUGH = 0.8
"""Least over greatest distance from the middle for a pattern to count as a circle (own choice)."""


class PatternKind(Enum):
    """How the holes are laid out."""

    CIRCLE = "circle"
    GRID = "rows and columns"
    FREE = "free"


@dataclass(frozen=True)
class Place:
    """One numbered hole and where it lies, in any unit of length."""

    hole: int
    x: float
    y: float


@dataclass(frozen=True)
class Pattern:
    """The places of a set, by hole number."""

    kind: PatternKind
    places: tuple[Place, ...]

    @property
    def holes(self) -> tuple[int, ...]:
        """The hole numbers in the order of the pattern."""
        return tuple(place.hole for place in self.places)


def circle_pattern(count: int) -> Pattern:
    """Holes 1…count clockwise on a circle of radius 1, hole 1 at the top.

    >>> circle_pattern(4).places[1]
    Place(hole=2, x=1.0, y=0.0)
    """
    _require_count(count)
    turns = [2 * math.pi * step / count for step in range(count)]
    places = (
        Place(step + 1, round(math.sin(turn), 12) + 0.0, round(-math.cos(turn), 12) + 0.0)
        for step, turn in enumerate(turns)
    )
    return Pattern(PatternKind.CIRCLE, tuple(places))


def grid_pattern(rows: int, columns: int) -> Pattern:
    """Holes numbered row by row from the top left, one unit apart.

    >>> grid_pattern(2, 3).places[4]
    Place(hole=5, x=1.0, y=1.0)
    """
    if rows < 1 or columns < 1:
        raise BadInputError(
            said(
                "A pattern of {rows} × {columns} has no hole: give at least 1 × 1.",
                rows=rows,
                columns=columns,
            )
        )
    _require_count(rows * columns)
    places = (
        Place(row * columns + column + 1, float(column), float(row))
        for row in range(rows)
        for column in range(columns)
    )
    return Pattern(PatternKind.GRID, tuple(places))


def free_pattern(pins: Sequence[tuple[float, float]], *, aspect: float = 1.0) -> Pattern:
    """Holes from pins on a photo, numbered as given: x, y as fractions of the photo, aspect width/height.

    >>> free_pattern([(0.5, 0.25)], aspect=2.0).places
    (Place(hole=1, x=1.0, y=0.25),)
    """
    _require_count(len(pins))
    if aspect <= 0 or not all(math.isfinite(x) and math.isfinite(y) for x, y in pins):
        raise BadInputError("A pin has no place on the photo: set it again.")
    places = (Place(number, x * aspect, y) for number, (x, y) in enumerate(pins, start=1))
    return Pattern(PatternKind.FREE, tuple(places))


def pattern_subset(pattern: Pattern, holes: Iterable[int]) -> Pattern:
    """Only some holes of a pattern (one length, one stage), places kept, as a free pattern."""
    wanted = frozenset(holes)
    unknown = wanted - frozenset(pattern.holes)
    if unknown:
        raise BadInputError(
            said(
                "The pattern has no hole {hole}: choose among {holes}.",
                hole=min(unknown),
                holes=_span(pattern),
            )
        )
    kept = tuple(place for place in pattern.places if place.hole in wanted)
    return Pattern(pattern.kind if len(kept) == len(pattern.places) else PatternKind.FREE, kept)


def pattern_middle(pattern: Pattern) -> tuple[float, float]:
    """Mean place of the holes, as (x, y)."""
    count = len(pattern.places)
    return sum(place.x for place in pattern.places) / count, sum(place.y for place in pattern.places) / count


def distances_from_middle(pattern: Pattern) -> dict[int, float]:
    """How far each hole lies from the middle, by hole number."""
    x, y = pattern_middle(pattern)
    return {place.hole: math.hypot(place.x - x, place.y - y) for place in pattern.places}


def holes_around(pattern: Pattern) -> tuple[int, ...]:
    """The holes clockwise around the middle, the lowest number first."""
    x, y = pattern_middle(pattern)
    turns = {place.hole: math.atan2(place.x - x, y - place.y) % (2 * math.pi) for place in pattern.places}
    around = sorted(turns, key=lambda hole: turns[hole])
    start = around.index(min(around))
    return (*around[start:], *around[:start])


def is_round(pattern: Pattern) -> bool:
    """Whether the holes lie about on a circle, so that its rules for the order hold."""
    if pattern.kind is PatternKind.CIRCLE:
        return True
    distances = distances_from_middle(pattern).values()
    return min(distances) >= ROUND_ENOUGH * max(distances)


def closest_spacing(pattern: Pattern) -> float:
    """The smallest distance between two holes; 0 with one hole, or two in one place."""
    places = pattern.places
    return min(
        (math.hypot(a.x - b.x, a.y - b.y) for i, a in enumerate(places) for b in places[:i]), default=0.0
    )


def _require_count(count: int) -> None:
    if not 1 <= count <= MOST_HOLES:
        raise BadInputError(
            said(
                "A pattern of {count} holes cannot be laid out: give 1 to {most}.",
                count=count,
                most=MOST_HOLES,
            )
        )


def _span(pattern: Pattern) -> str:
    return f"{min(pattern.holes)} to {max(pattern.holes)}"
