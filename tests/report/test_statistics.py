"""Minutes by step, how good the reader is, and when nobody was there: each against figures reckoned by hand."""

from __future__ import annotations

from tests.builders import Told

from lastbolt.journal import effective, in_order
from lastbolt.report.custody import alone, spells
from lastbolt.report.statistics import compared_counts, reader_here, step_minutes, step_times


def happened(told):
    return effective(in_order(told.entries))


def test_minutes_count_to_the_step_that_runs_and_a_long_pause_counts_ten():
    told = Told()
    told.say("signed-on")
    told.say("step-started", name="Strip")
    told.say("part-removed", after=4, part="LID")
    told.say("part-removed", after=45, part="CAP")
    told.say("step-done", after=1, name="Strip")
    told.say("step-started", after=5, name="Clean")
    told.say("cleaned", after=3, opening="PORT")
    assert step_minutes(happened(told)) == {"Strip": 1 + 4 + 10 + 1, "Clean": 5 + 3}


def test_two_people_on_one_step_both_count_and_nobody_is_named():
    told = Told()
    for who in ("Ana", "Ben"):
        told.say("step-started", by=who, name="Strip", after=0)
    for who in ("Ana", "Ben"):
        told.say("part-removed", by=who, part=f"LID {who}", after=3)
    minutes = step_minutes(happened(told))
    assert minutes == {"Strip": 3 + 6}
    rows = step_times(minutes, {"Strip": 20.0})
    assert [(row.step, row.minutes, row.before) for row in rows] == [("Strip", 9, 20.0)]


def test_the_readers_count_is_held_against_what_was_logged():
    told = Told()
    told.say("fasteners-removed", set="LID", n=6, to="B1")
    told.say("photo-counted", container="B1", n=6, low=6, high=6)
    told.say("photo-counted", container="B2", n=4, low=3, high=5)
    told.say("fasteners-removed", set="CAP", n=5, to="B2")
    told.say("fasteners-removed", set="CAP", n=2, to="B3", bagged=1)
    told.say("photo-counted", container="B3", n=4, low=4, high=4)
    pairs = compared_counts(happened(told))
    assert [(p.container, p.read, p.counted) for p in pairs] == [("B1", 6, 6), ("B2", 4, 5), ("B3", 4, 1)]
    found = reader_here(pairs)
    assert (found.compared, found.equal, found.within, found.mean_off) == (3, 1, 2, round(4 / 3, 3))
    assert [p.container for p in found.off] == ["B3", "B2"]


def test_who_was_there_and_when_nobody_was():
    told = Told(start="1 08:00")
    told.say("signed-on", at="1 08:00", by="Ana")
    told.say("signed-on", at="1 09:00", by="Ben")
    told.say("signed-off", at="1 12:00", by="Ana")
    told.say("signed-off", at="1 16:00", by="Ben")
    told.say("signed-on", at="2 07:30", by="Ana")
    told.say("signed-off", at="2 15:00", by="Ana")
    found = spells(happened(told))
    assert [(s.person, s.since.hour, s.until and s.until.hour) for s in found] == [
        ("Ana", 8, 12), ("Ben", 9, 16), ("Ana", 7, 15),
    ]  # fmt: skip
    gaps = alone(happened(told))
    assert [(g.since.hour, g.until.hour if g.until else None, g.last) for g in gaps] == [
        (16, 7, "Ben"),
        (15, None, "Ana"),
    ]
