import threading

import pytest
from tests.builders import Told

from lastbolt.errors import BadInputError
from lastbolt.label_code import make


def test_numbers_go_on_for_each_kind_by_itself(wired):
    assert wired.counters.take("T", 3) == [1, 2, 3]
    assert wired.counters.take("B", 1) == [1]
    assert wired.counters.take("T", 2) == [4, 5]


def test_a_number_that_a_job_uses_already_is_passed_over(wired):
    story = Told()
    story.say("label-bound", label=make("T", 2), container="tray 2")
    story.say("label-retired", label=make("T", 2))
    wired.journal.append("job 1", story.raws, received="2026-03-09T08:00:00.000Z")
    assert wired.counters.take("T", 3) == [1, 3, 4]


def test_two_programs_never_get_one_number(wired):
    got: list[int] = []
    threads = [threading.Thread(target=lambda: got.extend(wired.counters.take("T", 25))) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(got) == list(range(1, 201))


def test_when_the_numbers_are_used_up_none_is_taken(wired):
    with wired.database.writing() as tables:
        tables.execute("INSERT INTO counters VALUES ('T', 999_990)".replace("_", ""))
    with pytest.raises(BadInputError, match="left"):
        wired.counters.take("T", 20)
    assert wired.counters.take("T", 9) == list(range(999_991, 1_000_000))
