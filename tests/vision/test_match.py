"""Ranking a lone part against the types of the open jobs (practice 8.1)."""

import pytest

from lastbolt.vision.match import Candidate, Measured, rank


def _type(name: str, shank: float, length: float | None, **more: bool) -> Candidate:
    return Candidate(
        name, "hex_bolt", shank, length, None, more.get("missing", False), more.get("same_zone", False)
    )


def test_the_misfit_is_the_sum_of_squared_deviations() -> None:
    only = rank(Measured("hex_bolt", 6.3, 21.0, None), [_type("a", 6.0, 20.0)])
    assert only[0].score == 2.0  # (0.3 / 0.3)^2 + (1.0 / 1.0)^2
    assert only[0].share == 1.0


def test_a_type_that_misses_a_part_comes_before_a_nearer_one_that_does_not() -> None:
    ranked = rank(
        Measured("hex_bolt", 6.0, 20.4, None),
        [_type("full", 6.0, 20.0), _type("short", 6.0, 21.5, missing=True)],
    )
    assert [match.candidate.name for match in ranked] == ["short", "full"]


def test_the_same_zone_breaks_a_tie() -> None:
    ranked = rank(
        Measured(None, 8.0, 30.0, None), [_type("far", 8.0, 30.0), _type("near", 8.0, 30.0, same_zone=True)]
    )
    assert [match.candidate.name for match in ranked] == ["near", "far"]
    assert ranked[0].share == 2 / 3


def test_nothing_that_fits_gives_nothing() -> None:
    assert (
        rank(Measured("hex_bolt", 6.0, 20.0, None), [_type("long", 6.0, 23.0), _type("thick", 8.0, 20.0)])
        == []
    )
    assert rank(Measured("washer", 6.0, None, None), [_type("bolt", 6.0, None)]) == []
    assert rank(Measured(None, None, None, None), [_type("bolt", 6.0, 20.0)]) == []


def test_at_most_three_are_shown() -> None:
    many = [_type(name, 6.0, 20.0) for name in "dcba"]
    assert [match.candidate.name for match in rank(Measured(None, 6.0, 20.0, None), many)] == ["a", "b", "c"]


def test_what_was_measured_in_a_photo_may_be_off_by_twice_as_much() -> None:
    """Practice 8.1: 1 to 1.5 mm in a shop's photo."""
    eight = _type("cover", 8.0, 35.0)
    assert rank(Measured("hex_bolt", 8.9, 36.7, None), [eight]) == []
    (match,) = rank(Measured("hex_bolt", 8.9, 36.7, None, in_photo=True), [eight])
    assert match.score == pytest.approx((0.9 / 0.6) ** 2 + (1.7 / 1.5) ** 2, abs=1e-3)
    assert rank(Measured("hex_bolt", 10.0, 35.0, None, in_photo=True), [eight]) == []
