from datetime import UTC, datetime, timedelta, timezone

import pytest
from tests.builders import Told

from lastbolt.actions.record import fields_from, received_text, record, record_here
from lastbolt.errors import BadInputError, ConflictError


def told(job="job 1"):
    return Told(job=job).told(("container-scanned", {"container": "T1"})).raws


def test_entries_are_kept_as_they_came_with_the_time_of_their_arrival(shop, clock):
    raws = told()
    lines = record(shop.journal, clock, raws)
    assert [line.entry for line in lines] == raws
    assert {line.received for line in lines} == {"2026-03-09T08:00:00.000Z"}


def test_nothing_is_filled_in(shop, clock):
    raws = told()
    del raws[1]["by"]
    with pytest.raises(BadInputError, match=r"entry 2: .*by"):
        record(shop.journal, clock, raws)
    assert shop.journal.lines("job 1") == []


def test_all_mistakes_are_named_and_nothing_is_recorded(shop, clock):
    raws = [*told(), {"kind": "dance"}, {**told()[0], "level": 9}, {**told("job 2")[1]}]
    with pytest.raises(BadInputError) as trouble:
        record(shop.journal, clock, raws, job="job 1")
    said = str(trouble.value)
    assert "entry 3: " in said and "'dance'" in said
    assert "entry 4: " in said and "level" in said
    assert "entry 5: it names the job job 2, not job 1" in said
    assert shop.journal.job_names() == []


def test_one_call_is_one_job(shop, clock):
    with pytest.raises(BadInputError, match="job 2"):
        record(shop.journal, clock, [told()[0], told("job 2")[1]])


def test_nothing_at_all_is_told(shop, clock):
    with pytest.raises(BadInputError, match="no entry to record"):
        record(shop.journal, clock, [])


def test_sending_again_later_changes_nothing(shop, clock):
    raws = told()
    first = record(shop.journal, clock, raws)
    clock.move(hours=3)
    assert record(shop.journal, clock, raws) == first


def test_a_surprising_entry_is_kept(shop, clock):
    story = Told().told(
        ("set-described", {"set": "COVER", "n": 6}),
        ("fasteners-fitted", {"set": "COVER", "n": 7}),
    )
    assert len(record(shop.journal, clock, story.raws)) == 3


def test_other_content_under_one_id_is_refused(shop, clock):
    raws = told()
    record(shop.journal, clock, raws)
    with pytest.raises(ConflictError):
        record(shop.journal, clock, [{**raws[1], "container": "T2"}])


def test_what_has_no_exact_form_is_refused_in_words(shop, clock):
    raw = {**told()[0], "from_the_future": 2**60}
    with pytest.raises(BadInputError, match="cannot be written down exactly"):
        record(shop.journal, clock, [raw])


def test_an_entry_nested_without_end_is_refused_in_words(shop, clock):
    deep: list[object] = []
    for _ in range(100_000):
        deep = [deep]
    with pytest.raises(BadInputError, match="nested too deep"):
        record(shop.journal, clock, [{**told()[0], "from_the_future": deep}])


def test_an_entry_stated_here_gets_its_envelope_here(shop, clock):
    record(shop.journal, clock, told())
    first = record_here(shop, "job 1", "container-scanned", by="Ana", fields={"container": "T2"}).entry
    second = record_here(shop, "job 1", "container-scanned", by="Ben", fields={"container": "T2"}).entry
    assert (first["device"], first["seq"], first["by"], first["at"]) == (
        "desk",
        1,
        "Ana",
        "2026-03-09T08:00:00.000+00:00",
    )
    assert second["seq"] == 2 and first["id"] != second["id"]


def test_fields_cannot_take_the_place_of_the_envelope(shop, clock):
    line = record_here(
        shop, "a", "container-scanned", by="Ana", fields={"container": "T2", "job": "b", "by": "x"}
    )
    assert (line.job, line.entry["job"], line.entry["by"]) == ("a", "a", "Ana")


def test_an_unsound_statement_is_refused_in_words(shop):
    with pytest.raises(BadInputError, match="container"):
        record_here(shop, "job 1", "container-scanned", by="Ana", fields={})
    assert shop.journal.job_names() == []


def test_fields_are_json_where_they_can_be():
    assert fields_from(["n=6", "set=COVER", "holes=[1,2]", "new=true", "note=a=b"]) == {
        "n": 6,
        "set": "COVER",
        "holes": [1, 2],
        "new": True,
        "note": "a=b",
    }
    for wrong in ("n", "=6", ""):
        with pytest.raises(BadInputError, match="FIELD=VALUE"):
            fields_from([wrong])


def test_arrival_is_written_in_utc():
    east = timezone(timedelta(hours=5, minutes=45))
    assert received_text(datetime(2026, 3, 9, 13, 45, 1, 999_999, east)) == "2026-03-09T08:00:01.999Z"
    assert received_text(datetime(2026, 3, 9, tzinfo=UTC)) == "2026-03-09T00:00:00.000Z"
