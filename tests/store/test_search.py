"""The index of words follows the journal: in the same transaction, over corrections, and when made anew."""

from __future__ import annotations

import pytest
from tests.builders import Told

from lastbolt.actions.record import record
from lastbolt.errors import BadInputError


def tell(wired, clock, story):
    record(wired.journal, clock, story.raws)


def names(wired, words):
    return {(hit.job, hit.name) for hit in wired.search.find(words).hits}


@pytest.fixture
def story():
    told = Told(title="Winch rebuild", machine="Harbour crane")
    told.say("set-described", set="flange bolts", n=8, type="M8x1.25x30", part="flange")
    told.say("fasteners-removed", set="flange bolts", n=8, to="B1", note="two were stiff, gräulich corroded")
    told.say("step-started", name="Lift off the drum")
    return told


def test_a_bolt_is_found_however_its_size_is_written(wired, clock, story):
    tell(wired, clock, story)
    for asked in (
        "M8×30",
        "m8x30",
        "M8 x 30",
        "M8x1.25x30",
        "M8X1,25X30",
        "M8×30 flange",
        "where are the M8x30 flange bolts",
    ):
        assert ("job 1", "flange bolts") in names(wired, asked), asked
    for asked in ("M8x35", "M8x1x30", "M80", "M8x30x1.25"):
        assert ("job 1", "flange bolts") not in names(wired, asked), asked


def test_jobs_machines_steps_and_notes_are_found(wired, clock, story):
    tell(wired, clock, story)
    for asked in ("harbour", "winch", "drum", "stiff", "graulich", "flang"):
        assert wired.search.find(asked).hits, asked


def test_what_was_voided_is_not_found_and_what_replaces_it_is(wired, clock, story):
    place = story.say("container-described", container="B1", note="the blue bucket")
    wrong = story.say("container-described", container="B2", note="the green bucket")
    story.say("entry-voided", entry=place, reason="no such bucket")
    story.say("entry-replaced", entry=wrong, fields={"note": "the yellow bucket"}, reason="another colour")
    tell(wired, clock, story)
    assert not wired.search.find("blue bucket").all_words or not names(wired, "blue")
    assert names(wired, "yellow") == {("job 1", "B2")} and not names(wired, "green")


def test_an_entry_that_was_refused_left_no_words(wired, clock, story):
    tell(wired, clock, story)
    bad = story.raws[-1] | {"kind": "no such kind", "name": "zeppelin"}
    with pytest.raises(BadInputError):
        record(wired.journal, clock, [bad])
    assert not names(wired, "zeppelin")


def test_the_index_made_anew_finds_the_same(wired, clock, story):
    tell(wired, clock, story)
    before = {words: wired.search.find(words) for words in ("flange bolts", "M8x30", "drum", "corroded")}
    wired.journal.rebuild()
    assert {words: wired.search.find(words) for words in before} == before
    assert all(found.hits for found in before.values())


def test_words_that_nothing_has_all_of_find_what_has_some(wired, clock, story):
    tell(wired, clock, story)
    found = wired.search.find("flange zeppelin")
    assert not found.all_words and ("job 1", "flange bolts") in {(h.job, h.name) for h in found.hits}
