import json
import sqlite3
import threading

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.builders import Told
from uuid6 import uuid7

from lastbolt.errors import BadInputError, ConflictError, StoreError
from lastbolt.journal import GENESIS, first_break, seal
from lastbolt.settings import settings_from
from lastbolt.wiring import wire

RECEIVED = "2026-03-09T08:00:00.000Z"


@pytest.fixture
def journal(wired):
    return wired.journal


def told(n=3, job="job 1"):
    story = Told(job=job)
    for hole in range(1, n):
        story.say("container-scanned", container=f"T{hole}")
    return [{**raw, "id": str(uuid7())} for raw in story.raws]


def raw_connection(wired):
    return sqlite3.connect(wired.settings.data / "lastbolt.sqlite")


def test_entries_come_back_in_the_order_in_which_they_were_appended(journal):
    raws = told(5)
    journal.append("job 1", raws[:2], received=RECEIVED)
    journal.append("job 1", raws[2:], received=RECEIVED)
    lines = journal.lines("job 1")
    assert [line.entry for line in lines] == raws
    assert [line.position for line in lines] == [1, 2, 3, 4, 5]


def test_lines_are_chained_from_the_beginning(journal):
    lines = journal.append("job 1", told(), received=RECEIVED)
    assert lines[0].prev == GENESIS
    assert [line.prev for line in lines[1:]] == [line.hash for line in lines[:-1]]
    assert lines[1].hash == seal(lines[1].entry, position=2, received=RECEIVED, prev=lines[0].hash)
    assert journal.head("job 1") == lines[-1].hash
    assert first_break(journal.lines("job 1")) is None


def test_each_job_has_a_chain_of_its_own(journal):
    journal.append("a", told(job="a"), received=RECEIVED)
    journal.append("b", told(2, job="b"), received=RECEIVED)
    assert journal.job_names() == ["a", "b"]
    assert [line.position for line in journal.lines("b")] == [1, 2]
    assert journal.head("nowhere") == GENESIS and journal.lines("nowhere") == []


def test_an_entry_sent_again_keeps_the_line_that_it_has(journal):
    raws = told()
    first = journal.append("job 1", raws, received=RECEIVED)
    again = journal.append("job 1", raws[1:], received="2026-03-10T08:00:00.000Z")
    assert again == first[1:]
    assert len(journal.lines("job 1")) == 3


def test_the_same_entry_twice_in_one_append_is_kept_once(journal):
    raws = told(2)
    lines = journal.append("job 1", [raws[0], raws[1], raws[1]], received=RECEIVED)
    assert lines[1] == lines[2] and len(journal.lines("job 1")) == 2


def test_the_same_entry_written_with_other_blanks_and_order_is_the_same(journal):
    raws = told(1)
    turned = json.loads(json.dumps(dict(reversed(raws[0].items())), indent=4))
    journal.append("job 1", raws, received=RECEIVED)
    assert journal.append("job 1", [turned], received=RECEIVED)[0].position == 1


def test_an_id_that_stands_with_other_content_is_refused_and_nothing_of_the_append_is_kept(journal):
    raws = told(3)
    journal.append("job 1", raws[:1], received=RECEIVED)
    with pytest.raises(ConflictError, match="other content"):
        journal.append("job 1", [raws[1], {**raws[0], "note": "changed"}, raws[2]], received=RECEIVED)
    assert len(journal.lines("job 1")) == 1


def test_an_id_in_capitals_is_the_same_id(journal):
    raws = told(1)
    journal.append("job 1", raws, received=RECEIVED)
    with pytest.raises(ConflictError):
        journal.append("job 1", [{**raws[0], "id": raws[0]["id"].upper()}], received=RECEIVED)


def test_fields_from_a_newer_phone_survive(journal):
    raws = [{**told(1)[0], "from_the_future": {"deep": [1, 2.5, "ß\u0000"]}}]
    journal.append("job 1", raws, received=RECEIVED)
    assert journal.lines("job 1")[0].entry == raws[0]


def test_an_entry_that_would_not_read_back_as_it_was_written_is_refused(journal):
    """2.0**53 is written 9007199254740992, which reads back as a whole number too large to be exact."""
    raws = told(2)
    with pytest.raises(BadInputError, match="cannot be written down exactly"):
        journal.append("job 1", [raws[0], {**raws[1], "from_the_future": 2.0**53}], received=RECEIVED)
    assert journal.job_names() == []


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET raw = '{}' WHERE position = 2",
        "UPDATE OR REPLACE entries SET position = 1 WHERE position = 2",
        "DELETE FROM entries WHERE position = 3",
        "DELETE FROM entries",
        "INSERT OR REPLACE INTO entries SELECT job, position, id, kind, device, seq, received, prev, hash, '{}'"
        " FROM entries WHERE position = 2",
        "INSERT OR REPLACE INTO entries SELECT job, 4, id, kind, device, seq, received, hash, hash, '{}'"
        " FROM entries WHERE position = 3",
        "INSERT INTO entries SELECT job, 9, 'other', kind, device, seq, received, hash, hash, raw"
        " FROM entries WHERE position = 3",
        "INSERT INTO entries SELECT job, 4, 'other', kind, device, seq, received, prev, hash, raw"
        " FROM entries WHERE position = 3",
    ],
)
def test_the_database_itself_refuses_to_change_remove_or_push_in(wired, statement):
    before = wired.journal.append("job 1", told(3), received=RECEIVED)
    connection = raw_connection(wired)
    with pytest.raises(sqlite3.IntegrityError):
        connection.execute(statement)
    connection.close()
    assert wired.journal.lines("job 1") == before


def test_a_change_behind_the_triggers_back_is_named(wired):
    wired.journal.append("job 1", told(4), received=RECEIVED)
    connection = raw_connection(wired)
    connection.execute("DROP TRIGGER entries_never_change")
    connection.execute("UPDATE entries SET raw = replace(raw, '\"T2\"', '\"T9\"')")
    connection.commit()
    connection.close()
    broken = first_break(wired.journal.lines("job 1"))
    assert broken is not None and (broken.position, broken.entry_id) == (3, told_id(wired, 3))


def told_id(wired, position):
    return wired.journal.lines("job 1")[position - 1].entry["id"]


def test_entries_made_here_are_numbered_after_their_device(journal):
    raws = told(3)
    journal.append("job 1", raws, received=RECEIVED)
    device, last = raws[-1]["device"], raws[-1]["seq"]
    own = [{k: v for k, v in raw.items() if k != "seq"} for raw in told(3, job="job 1")]
    for raw, new in zip(own, ("desk", device, "desk"), strict=True):
        raw["device"] = new
    lines = journal.append_own("job 1", own, received=RECEIVED)
    assert [line.entry["seq"] for line in lines] == [1, last + 1, 2]


def test_two_threads_and_two_connections_append_without_a_gap_or_a_break(wired):
    other = wire(settings_from({"LASTBOLT_DATA": str(wired.settings.data)}))
    batches = [told(20) for _ in range(4)]
    journals = [wired.journal, wired.journal, other.journal, other.journal]

    def work(journal, raws):
        for raw in raws:
            own = {k: v for k, v in raw.items() if k != "seq"}
            journal.append_own("job 1", [{**own, "device": "desk"}], received=RECEIVED)

    threads = [threading.Thread(target=work, args=pair) for pair in zip(journals, batches, strict=True)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    other.close()
    lines = wired.journal.lines("job 1")
    assert first_break(lines) is None
    assert sorted(line.entry["seq"] for line in lines) == list(range(1, 81))


def test_what_was_appended_is_there_after_opening_again(wired):
    lines = wired.journal.append("job 1", told(), received=RECEIVED)
    other = wire(settings_from({"LASTBOLT_DATA": str(wired.settings.data)}))
    assert other.journal.lines("job 1") == lines
    other.close()


def test_a_full_disk_is_told_in_a_sentence_and_leaves_nothing_half_there(wired):
    before = wired.journal.append("job 1", told(2), received=RECEIVED)
    with wired.database.reading() as tables:
        pages = tables.execute("PRAGMA page_count").fetchone()[0]
        tables.execute(f"PRAGMA max_page_count = {pages + 1}")
    heavy = [{**raw, "from_the_future": "x" * 5000} for raw in told(20)]
    with pytest.raises(StoreError, match="disk is full"):
        wired.journal.append("job 1", heavy, received=RECEIVED)
    assert wired.journal.lines("job 1") == before
    assert wired.look_up.job("job 1").entries == 2


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(order=st.permutations(range(8)), cut=st.integers(0, 8))
def test_whatever_is_sent_in_whatever_parts_and_again_is_kept_once_and_chained(wired, order, cut):
    job = str(uuid7())
    raws = told(8, job=job)
    sent = [raws[i] for i in order]
    wired.journal.append(job, sent[:cut], received=RECEIVED)
    wired.journal.append(job, sent[cut // 2 :], received=RECEIVED)
    lines = wired.journal.lines(job)
    assert [line.entry["id"] for line in lines] == [raw["id"] for raw in sent]
    assert first_break(lines) is None
