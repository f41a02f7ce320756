"""Whether the order in which holes were tightened was even, or the one that the maker gives."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from lastbolt.torque.pattern import Pattern, closest_spacing, distances_from_middle, holes_around, is_round
from lastbolt.torque.sequence import loosening_order

INWARD_SHARE = 0.5
"""How much nearer to the middle, in closest spacings, a waiting hole must lie to be a fault (own choice)."""


class OrderFaultKind(Enum):
    """What was wrong with an order."""

    UNKNOWN_HOLE = "no such hole"
    TWICE = "done twice"
    MISSED = "left out"
    NEIGHBOURS = "neighbours in a row"
    OUTSIDE_FIRST = "outside before the middle"
    NOT_AS_GIVEN = "not the maker's order"


@dataclass(frozen=True)
class OrderFault:
    """One fault of a whole pass, with the holes it is about and one sentence that says what to do."""

    kind: OrderFaultKind
    holes: tuple[int, ...]
    sentence: str


def judge_order(
    done: Sequence[int], pattern: Pattern, *, is_final_circular: bool = False, is_loosening: bool = False
) -> tuple[OrderFault, ...]:
    """The faults of one whole pass over a pattern; empty when the order is accepted.

    Round patterns: any order is accepted unless neighbours follow each other. Three holes or fewer have no
    choice, and on four or six a new opposite pair may start beside the last one (1 4 6 3 2 5). Others: no
    hole before one that lies clearly nearer to the middle. Loosening is judged backwards; the last pass at
    full torque goes round the circle, so there only missing and repeated holes count.
    Source: properties computed from the legacy ASME PCC-1 orders; several orders have them.

    >>> from lastbolt.torque.pattern import circle_pattern
    >>> judge_order((1, 3, 2, 4), circle_pattern(4))
    ()
    >>> [fault.kind.value for fault in judge_order((1, 2, 3, 4), circle_pattern(4))]
    ['neighbours in a row']
    """
    faults = _count_faults(done, frozenset(pattern.holes))
    if is_final_circular or faults:
        return faults
    order = loosening_order(done) if is_loosening else tuple(done)
    if is_round(pattern):
        around = holes_around(pattern)
        return _neighbour_faults([around.index(hole) for hole in order], around)
    return _outside_faults(order, pattern)


def judge_given_order(
    done: Sequence[int], given: Sequence[int], *, circle: int = 0
) -> tuple[OrderFault, ...]:
    """The faults of a pass against the maker's order; empty when it was kept.

    With `circle` holes in the pattern the same order started at another hole, or run the other way round, is
    accepted too. An empty given order means any.

    >>> judge_given_order((2, 4, 3, 1), (1, 3, 2, 4), circle=4)
    ()
    >>> judge_given_order((2, 1), (1, 2))[0].sentence
    'Done 2 1, but the maker gives 1 2: the lead decides whether to repeat the pass.'
    """
    if not given or tuple(done) == tuple(given):
        return ()
    faults = _count_faults(done, frozenset(given))
    if faults:
        return faults
    if circle and tuple(done) in _turned_orders(given, circle):
        return ()
    shown, wanted = (" ".join(map(str, order)) for order in (done, given))
    words = f"Done {shown}, but the maker gives {wanted}: the lead decides whether to repeat the pass."
    return (OrderFault(OrderFaultKind.NOT_AS_GIVEN, tuple(done), words),)


def _turned_orders(given: Sequence[int], circle: int) -> frozenset[tuple[int, ...]]:
    turned = (
        tuple((way * (hole - 1) + shift) % circle + 1 for hole in given)
        for shift in range(circle)
        for way in (1, -1)
    )
    return frozenset(turned)


def _count_faults(done: Sequence[int], holes: frozenset[int]) -> tuple[OrderFault, ...]:
    """Strange, repeated and missing holes of a pass."""
    strange = tuple(hole for hole in dict.fromkeys(done) if hole not in holes)
    twice = tuple(hole for hole in dict.fromkeys(done) if hole in holes and done.count(hole) > 1)
    missed = tuple(sorted(holes.difference(done)))
    faults = []
    if strange:
        words = f"The pattern has no hole {_list(strange)}: look at the numbers again."
        faults.append(OrderFault(OrderFaultKind.UNKNOWN_HOLE, strange, words))
    if twice:
        words = f"Hole {_list(twice)} was done twice in one pass: look whether another was meant."
        faults.append(OrderFault(OrderFaultKind.TWICE, twice, words))
    if missed:
        words = f"Hole {_list(missed)} was left out of the pass: tighten it."
        faults.append(OrderFault(OrderFaultKind.MISSED, missed, words))
    return tuple(faults)


def _neighbour_faults(positions: Sequence[int], around: Sequence[int]) -> tuple[OrderFault, ...]:
    """Neighbours in a row among positions 0…n−1 round a circle."""
    count = len(around)
    if count < 4:
        return ()
    beside = [
        index
        for index in range(1, count)
        if (positions[index] - positions[index - 1]) % count in (1, count - 1)
        and not _starts_opposite_pair(positions, index)
    ]
    if not beside:
        return ()
    pairs = [(around[positions[index - 1]], around[positions[index]]) for index in beside]
    shown = ", ".join(f"{first}–{second}" for first, second in pairs)
    words = f"Neighbours were tightened in a row ({shown}): go crosswise, and repeat the pass if in doubt."
    holes = tuple(dict.fromkeys(hole for pair in pairs for hole in pair))
    return (OrderFault(OrderFaultKind.NEIGHBOURS, holes, words),)


def _starts_opposite_pair(positions: Sequence[int], index: int) -> bool:
    """Whether a position starts a new opposite pair right after another one, on a circle of four or six."""
    count = len(positions)
    if count not in (4, 6) or index % 2 or index < 2:
        return False
    pairs = ((positions[index - 2], positions[index - 1]), (positions[index], positions[index + 1]))
    return all((second - first) % count == count // 2 for first, second in pairs)


def _outside_faults(order: Sequence[int], pattern: Pattern) -> tuple[OrderFault, ...]:
    """Holes tightened while one clearly nearer to the middle still waited."""
    distances = distances_from_middle(pattern)
    margin = INWARD_SHARE * closest_spacing(pattern)
    early = []
    for index, hole in enumerate(order[:-1]):
        nearest = min(distances[waiting] for waiting in order[index + 1 :])
        if nearest < distances[hole] - margin:
            early.append(hole)
    if not early:
        return ()
    words = (
        f"Hole {_list(tuple(early))} came before one nearer to the middle: start in the middle, go outwards."
    )
    return (OrderFault(OrderFaultKind.OUTSIDE_FIRST, tuple(early), words),)


def _list(holes: tuple[int, ...]) -> str:
    return ", ".join(map(str, holes))
