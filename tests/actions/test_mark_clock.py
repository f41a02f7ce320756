from datetime import timedelta

from tests.builders import Told

from lastbolt.actions.mark_clock import mark_clock
from lastbolt.actions.record import record


def test_a_clock_that_is_off_is_marked_once_and_again_when_it_was_set(shop, clock):
    record(shop.journal, clock, Told().raws)
    slow = clock() - timedelta(hours=2)
    assert mark_clock(shop, "job 1", device="phone 2", said=slow) == -7200
    assert mark_clock(shop, "job 1", device="phone 2", said=slow + timedelta(seconds=20)) is None
    assert mark_clock(shop, "job 1", device="phone 3", said=clock() + timedelta(seconds=20)) is None
    assert mark_clock(shop, "job 1", device="phone 2", said=clock()) == 0
    marks = [line.entry for line in shop.journal.lines("job 1") if line.entry["kind"] == "clock-marked"]
    assert [(mark["marked_device"], mark["offset_s"]) for mark in marks] == [
        ("phone 2", -7200),
        ("phone 2", 0),
    ]
