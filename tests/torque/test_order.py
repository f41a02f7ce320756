from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
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
    spiral_order,
    suggest_order,
)

SIZES = st.tuples(st.integers(1, 6), st.integers(1, 8))


@given(SIZES)
def test_an_order_for_rows_names_each_hole_once(size: tuple[int, int]) -> None:
    order = suggest_order(grid_pattern(*size))
    assert sorted(order) == list(range(1, size[0] * size[1] + 1))


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
    assert set(suggest_order(grid_pattern(rows, columns))[: len(middle)]) == middle


def test_four_in_two_rows_go_crosswise() -> None:
    assert suggest_order(grid_pattern(2, 2)) == (1, 4, 2, 3)


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


def test_a_subset_goes_crosswise_among_its_own() -> None:
    every_second = pattern_subset(circle_pattern(12), range(1, 13, 2))
    assert holes_around(every_second) == (1, 3, 5, 7, 9, 11)
    assert suggest_order(every_second) == tuple(2 * hole - 1 for hole in circle_order(6))


def test_few_or_coinciding_holes_do_not_trouble_it() -> None:
    for count in (1, 2, 3):
        assert sorted(suggest_order(circle_pattern(count))) == list(range(1, count + 1))
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
    ):
        with pytest.raises(BadInputError, match=r": (give|set|choose|use)"):
            attempt()
