"""A reading is held against what was logged when its photo was taken, whenever the reading comes."""

from __future__ import annotations

import itertools

import pytest
from tests.builders import back, e, out, set_of, told

from lastbolt.journal import entry_from
from lastbolt.state.fold import replay

CHECK = "picture-count-differs"


def photo(name="P1"):
    return e("photo-added", photo=name, container="B1", shape="tray")


def counted(n, name="P1", **more):
    return e("photo-counted", container="B1", photo=name, n=n, **more)


def corrected(n, name="P1"):
    return e("reading-corrected", container="B1", photo=name, n=n, struck=[{"x": 0.5, "y": 0.5}])


BAGGED = [set_of(6), photo(), out(6, photos=["P1"])]
SILENT = {
    "the reading comes after the bolts are back": [*BAGGED, back(6), counted(6)],
    "the photo was sorted later": [set_of(6), photo(), counted(6), out(6, photos=["P1"])],
    "a hand count came before the late reading": [*BAGGED, e("container-counted", container="B1", n=6), counted(5)],
    "the tray was looked empty before the late reading": [*BAGGED, back(6), e("container-emptied", container="B1"), counted(5)],
    "a person corrected the reading": [*BAGGED, counted(7), corrected(6)],
    "the photo was set aside": [*BAGGED, counted(7), e("photo-rejected", photo="P1", why="blurred")],
    "the photo was set aside before it was read": [*BAGGED, e("photo-rejected", photo="P1", why="blurred"), counted(7)],
    "an older photo is read after a newer one": [*BAGGED, photo("P2"), counted(6, "P2"), counted(7)],
}  # fmt: skip
FIRES = {
    "the late reading differs from what was logged then": ([*BAGGED, back(6), counted(7)], "shows 7, the record says 6"),
    "a photo waits to be sorted": ([set_of(6), photo(), counted(6)], "shows 6, the record says 0"),
    "a corrected reading differs": ([*BAGGED, counted(6), corrected(5)], "shows 5, the record says 6"),
    "a newer photo differs": ([*BAGGED, counted(6), photo("P2"), counted(5, "P2")], "shows 5, the record says 6"),
}  # fmt: skip


@pytest.mark.parametrize("lines", SILENT.values(), ids=SILENT)
def test_stays_silent_when(lines):
    assert told(*lines).findings(CHECK) == []


@pytest.mark.parametrize(("lines", "words"), FIRES.values(), ids=FIRES)
def test_fires_when(lines, words):
    (finding,) = told(*lines).findings(CHECK)
    assert words in finding.sentence


def test_the_order_of_arrival_changes_nothing():
    story = told(*BAGGED, counted(7), corrected(6), back(2))
    for raws in itertools.permutations(story.raws[2:]):
        job = replay([entry_from(raw) for raw in (*story.raws[:2], *raws)], story.job)
        assert job.containers["B1"].picture is None
        assert job.ledger.balance("B1") == 4
