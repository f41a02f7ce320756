from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
from lastbolt.torque.order_judgement import OrderFaultKind, judge_given_order, judge_order
from lastbolt.torque.pattern import (
    circle_pattern,
    distances_from_middle,
    free_pattern,
    grid_pattern,
    holes_around,
    is_round,
    pattern_subset,
)
from lastbolt.torque.sequence import (
    circle_order,
    grid_order,
    grouped_circle_order,
    loosening_order,
    spiral_order,
    suggest_order,
)

SIZES = st.tuples(st.integers(1, 6), st.integers(1, 8))


@given(SIZES)
def test_a_grid_order_names_each_hole_once_and_is_accepted(size: tuple[int, int]) -> None:
    order = grid_order(*size)
    assert sorted(order) == list(range(1, size[0] * size[1] + 1))
    assert judge_order(order, grid_pattern(*size)) == ()


@given(SIZES)
def test_a_spiral_never_goes_inwards(size: tuple[int, int]) -> None:
    pattern = grid_pattern(*size)
    distances = distances_from_middle(pattern)
    steps = [distances[hole] for hole in spiral_order(pattern)]
    assert all(later >= earlier - 1e-6 for earlier, later in pairwise(steps))


@pytest.mark.parametrize(
    ("rows", "columns", "middle"), [(2, 3, {2, 5}), (2, 5, {3, 8}), (3, 3, {5}), (3, 4, {6, 7})]
)
def test_a_head_starts_in_the_middle(rows: int, columns: int, middle: set[int]) -> None:
    assert set(grid_order(rows, columns)[: len(middle)]) == middle


@pytest.mark.parametrize(("rows", "columns"), [(2, 3), (2, 5), (3, 4), (4, 4)])
def test_row_by_row_and_outside_in_are_faulted(rows: int, columns: int) -> None:
    pattern = grid_pattern(rows, columns)
    for order in (pattern.holes, loosening_order(grid_order(rows, columns))):
        (fault,) = judge_order(order, pattern)
        assert fault.kind is OrderFaultKind.OUTSIDE_FIRST


def test_loosening_backwards_is_accepted_and_forwards_is_not() -> None:
    pattern = grid_pattern(2, 5)
    order = suggest_order(pattern)
    assert judge_order(loosening_order(order), pattern, is_loosening=True) == ()
    assert judge_order(order, pattern, is_loosening=True) != ()


@pytest.mark.parametrize(
    ("done", "kinds"),
    [
        ((1, 3, 2), [OrderFaultKind.MISSED]),
        ((1, 3, 2, 2), [OrderFaultKind.TWICE, OrderFaultKind.MISSED]),
        ((1, 3, 2, 9), [OrderFaultKind.UNKNOWN_HOLE, OrderFaultKind.MISSED]),
    ],
)
def test_holes_left_out_repeated_or_unknown_come_first(
    done: tuple[int, ...], kinds: list[OrderFaultKind]
) -> None:
    for is_final in (False, True):
        faults = judge_order(done, circle_pattern(4), is_final_circular=is_final)
        assert [fault.kind for fault in faults] == kinds


def test_four_in_two_rows_count_as_a_circle() -> None:
    assert judge_order((1, 4, 2, 3), grid_pattern(2, 2)) == ()
    assert judge_order((1, 2, 4, 3), grid_pattern(2, 2)) != ()


def test_neighbours_in_part_of_an_order_are_named() -> None:
    (fault,) = judge_order((1, 5, 6, 2, 3, 7, 4, 8), circle_pattern(8))
    assert fault.kind is OrderFaultKind.NEIGHBOURS
    assert fault.holes == (5, 6, 2, 3)
    assert "5–6, 2–3" in fault.sentence


@given(st.integers(4, 30), st.randoms(use_true_random=False))
def test_a_fault_always_names_real_neighbours(count: int, random: object) -> None:
    done = list(range(1, count + 1))
    random.shuffle(done)  # type: ignore[attr-defined]
    for fault in judge_order(done, circle_pattern(count)):
        assert fault.kind is OrderFaultKind.NEIGHBOURS
        assert len(fault.holes) >= 2


def test_the_makers_order_is_compared_as_given() -> None:
    assert judge_given_order((3, 4, 1, 6, 2, 5), (3, 4, 1, 6, 2, 5)) == ()
    assert judge_given_order((1, 2, 3, 4, 5, 6), ()) == ()
    (fault,) = judge_given_order((1, 2, 3, 4, 5, 6), (3, 4, 1, 6, 2, 5))
    assert fault.kind is OrderFaultKind.NOT_AS_GIVEN
    (missed,) = judge_given_order((3, 4, 1, 6, 2), (3, 4, 1, 6, 2, 5))
    assert missed.kind is OrderFaultKind.MISSED


@given(st.integers(4, 24), st.integers(0, 23), st.sampled_from([1, -1]))
def test_the_makers_circle_may_start_anywhere_and_run_either_way(count: int, shift: int, way: int) -> None:
    given_order = circle_order(count)
    turned = tuple((way * (hole - 1) + shift) % count + 1 for hole in given_order)
    assert judge_given_order(turned, given_order, circle=count) == ()


def test_pins_about_on_a_circle_are_tightened_crosswise_and_others_from_the_middle() -> None:
    ring = free_pattern([(0.5, 0.1), (0.9, 0.5), (0.5, 0.9), (0.1, 0.5)])
    assert is_round(ring)
    assert suggest_order(ring) == (1, 3, 2, 4)
    scattered = free_pattern([(0.0, 0.5), (0.5, 0.52), (1.0, 0.5), (0.5, 0.48)])
    assert not is_round(scattered)
    assert set(suggest_order(scattered)[:2]) == {2, 4}


def test_pins_on_a_wide_photo_keep_their_shape() -> None:
    wide = free_pattern([(0.5, 0.0), (0.75, 0.5), (0.5, 1.0), (0.25, 0.5)], aspect=2.0)
    assert is_round(wide)


def test_a_subset_is_judged_by_its_own_neighbours() -> None:
    every_second = pattern_subset(circle_pattern(12), range(1, 13, 2))
    assert holes_around(every_second) == (1, 3, 5, 7, 9, 11)
    assert judge_order((1, 7, 3, 9, 5, 11), every_second) == ()
    assert judge_order((1, 3, 5, 7, 9, 11), every_second) != ()
    assert sorted(suggest_order(every_second)) == [1, 3, 5, 7, 9, 11]


def test_few_or_coinciding_holes_do_not_trouble_it() -> None:
    for count in (1, 2, 3):
        assert judge_order(circle_order(count), circle_pattern(count)) == ()
    same_place = free_pattern([(0.5, 0.5), (0.5, 0.5)])
    assert sorted(suggest_order(same_place)) == [1, 2]


def test_impossible_layouts_say_a_way_out() -> None:
    for attempt in (
        lambda: circle_pattern(0),
        lambda: circle_pattern(501),
        lambda: grid_pattern(0, 3),
        lambda: free_pattern([(float("nan"), 0.0)]),
        lambda: pattern_subset(circle_pattern(4), [9]),
        lambda: circle_order(0),
        lambda: grouped_circle_order(10, 3),
    ):
        with pytest.raises(BadInputError, match=r": (give|set|choose|use)"):
            attempt()
