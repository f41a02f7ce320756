"""Tightening orders against the legacy table and the properties that every even order has."""

import math
from itertools import pairwise

import pytest
from tests.builders import back, mark, out, pulled, set_of, told, value_of

from lastbolt.torque.order_judgement import OrderFaultKind, judge_order
from lastbolt.torque.pattern import circle_pattern
from lastbolt.torque.sequence import circle_order, grouped_circle_order, largest_resultant

# ASME PCC-1 table 4; 12 bolts read at wjlr.roverradio.com (secondary), the others from memory.
LEGACY = {
    4: "1 3 2 4",
    8: "1 5 3 7 2 6 4 8",
    12: "1 7 4 10 2 8 5 11 3 9 6 12",
    16: "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16",
    20: "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19",
    24: "1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24",
}
# Greatest resultant of plain circular order, computed.
PLAIN_RESULTANTS = {4: 1.41, 8: 2.61, 12: 3.86, 16: 5.13, 20: 6.39, 24: 7.66}
# Wheel practice, from memory: all of these are accepted.
WHEELS = ["1 3 5 2 4", "1 4 2 5 3 6", "1 4 6 3 2 5"]
COUNTS = range(3, 49)


def numbers(text: str) -> tuple[int, ...]:
    return tuple(map(int, text.split()))


@pytest.mark.parametrize("count", LEGACY)
def test_the_generator_gives_the_legacy_order(count: int) -> None:
    assert circle_order(count) == numbers(LEGACY[count])


@pytest.mark.parametrize("count", LEGACY)
def test_plain_circular_order_piles_up_on_one_side(count: int) -> None:
    assert largest_resultant(numbers(LEGACY[count]), count) == pytest.approx(1.0)
    plain = tuple(range(1, count + 1))
    assert largest_resultant(plain, count) == pytest.approx(PLAIN_RESULTANTS[count], abs=0.005)


@pytest.mark.parametrize("count", COUNTS)
def test_every_hole_once_and_never_lopsided(count: int) -> None:
    order = circle_order(count)
    assert sorted(order) == list(range(1, count + 1))
    assert largest_resultant(order, count) <= 1 + 1e-9
    plain = largest_resultant(range(1, count + 1), count)
    # A plain run reaches half the circle: 1/sin(π/n) for even counts, the same · cos(π/2n) for odd ones.
    top = 1 / math.sin(math.pi / count)
    assert plain == pytest.approx(top if count % 2 == 0 else top * math.cos(math.pi / 2 / count))


@pytest.mark.parametrize("count", [count for count in COUNTS if count % 2 == 0])
def test_even_counts_go_in_opposite_pairs(count: int) -> None:
    order = circle_order(count)
    for first, second in zip(order[::2], order[1::2], strict=True):
        assert (second - first) % count == count // 2


@pytest.mark.parametrize("count", [count for count in COUNTS if count % 4 == 0])
def test_each_four_are_a_quarter_turn_apart(count: int) -> None:
    order = circle_order(count)
    for start in range(0, count, 4):
        four = sorted(order[start : start + 4])
        assert [b - a for a, b in pairwise(four)] == [count // 4] * 3


@pytest.mark.parametrize("count", COUNTS)
def test_generated_orders_are_accepted_from_any_hole_and_either_way_round(count: int) -> None:
    pattern = circle_pattern(count)
    for shift in (0, 1, count // 2):
        for way in (1, -1):
            turned = [(way * (hole - 1) + shift) % count + 1 for hole in circle_order(count)]
            assert judge_order(turned, pattern) == ()


@pytest.mark.parametrize("count", [count for count in COUNTS if count > 3])
def test_plain_circular_order_is_faulted_except_in_the_last_pass(count: int) -> None:
    plain = range(1, count + 1)
    (fault,) = judge_order(plain, circle_pattern(count))
    assert fault.kind is OrderFaultKind.NEIGHBOURS
    assert set(fault.holes) == set(plain)
    assert judge_order(plain, circle_pattern(count), is_final_circular=True) == ()


@pytest.mark.parametrize("text", WHEELS + list(LEGACY.values()))
def test_published_orders_are_accepted(text: str) -> None:
    order = numbers(text)
    assert judge_order(order, circle_pattern(len(order))) == ()


def test_the_odd_star_and_six_are_the_published_ones() -> None:
    assert circle_order(5) == numbers(WHEELS[0])
    assert circle_order(6) == numbers(WHEELS[1])


def test_large_flanges_group_four_as_one() -> None:
    # 48 bolts as 12 groups, read at knm-hydraulikk.no
    groups = grouped_circle_order(48, 4)
    assert [group[0] // 4 + 1 for group in groups] == list(circle_order(12))
    assert sorted(hole for group in groups for hole in group) == list(range(1, 49))


@pytest.mark.parametrize("text", WHEELS + list(LEGACY.values()))
def test_a_published_order_that_the_maker_gives_is_held_to(text: str) -> None:
    order = list(numbers(text))
    n, last = len(order), circle_order(len(order))[-1]
    standing = [set_of(n), value_of(order=order), out(n), back(n)]

    assert told(*standing, pulled(holes=order)).findings("stage-or-sequence") == []
    (finding,) = told(*standing, pulled(holes=list(range(1, n + 1)))).findings("stage-or-sequence")
    assert (finding.subject, mark(finding)) == ("LID", "L")
    assert told(*standing, pulled(holes=order), pulled(holes=[last])).findings("stage-or-sequence") == []
