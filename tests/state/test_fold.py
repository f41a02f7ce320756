"""The fold: every kind has its place, things are born by doing, what cannot be placed is kept."""

from __future__ import annotations

from itertools import product

import pytest
from tests.builders import back, e, out, pulled, set_of, told, value_of

from lastbolt.journal import kinds
from lastbolt.state.covering import is_hidden
from lastbolt.state.fastener_set import Reach
from lastbolt.state.fold import HANDLERS, KEPT_ONLY


def test_every_kind_is_folded_or_only_kept() -> None:
    assert set(kinds()) == HANDLERS.keys() | KEPT_ONLY
    assert not HANDLERS.keys() & KEPT_ONLY


def test_a_set_is_born_by_taking_it_out() -> None:
    job = told(out(4), out(2)).state

    assert job.sets["LID"].n == 6
    assert job.ledger.balance("B1", "LID") == 6


def test_pieces_that_were_not_bagged_are_unknown() -> None:
    job = told(set_of(8), out(8, bagged=7)).state

    assert (job.ledger.balance("B1"), job.ledger.balance("?", "LID")) == (7, 1)


@pytest.mark.parametrize(
    ("lines", "reach"),
    [
        ([], Reach.FINAL),
        ([out(1)], Reach.EMPTY),
        ([e("fasteners-removed", set="LID", holes=[1], parked=True)], Reach.PARKED),
        ([out(1), back(1)], Reach.PLACED),
        ([out(1), back(1), pulled(10, stage=1)], Reach.SNUG),
        ([out(1), back(1), pulled(10, stage=1), pulled(22, stage=2)], Reach.FINAL),
        ([out(1), back(1), pulled(10, stage=1), pulled(22, stage=2), out(1)], Reach.EMPTY),
    ],
)
def test_a_hole_climbs_its_ladder(lines: list, reach: Reach) -> None:
    job = told(set_of(1), value_of(stage_count=2), *lines).state

    assert job.sets["LID"].holes[1].reach is reach


def test_a_set_without_a_value_is_tight_when_fitted() -> None:
    assert told(set_of(1), out(1), back(1)).state.sets["LID"].holes[1].reach is Reach.FINAL


@pytest.mark.parametrize(
    "line", [e("fastener-identified", find="F9"), e("loss-written-off", loss="L9", reason="gone")]
)
def test_what_names_nothing_known_is_kept_and_shown(line: tuple) -> None:
    assert [entry.kind for entry in told(line).state.unplaced] == [line[0]]


def test_the_level_only_goes_up() -> None:
    job = told(e("job-opened", level=2), e("level-raised", level=3), e("level-raised", level=1)).state

    assert job.level == 3


def test_an_element_is_hidden_only_if_every_route_has_a_part_on_it() -> None:
    routes = {"above": ["A", "B"], "below": ["C"]}
    said = [e("access-said", part=p, element="LID", route=r) for r, parts in routes.items() for p in parts]
    for on in product([True, False], repeat=3):
        off = [e("part-removed", part=p) for p, is_on in zip("ABC", on, strict=True) if not is_on]
        job = told(set_of(1, part=None), *said, *off).state

        shut = all(any(on["ABC".index(p)] for p in parts) for parts in routes.values())
        assert is_hidden(job, "LID") is shut
