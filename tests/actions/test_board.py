"""What the board keeps: read again after a start without folding a job, and never of another check set."""

from __future__ import annotations

from dataclasses import astuple

import pytest
from tests.builders import Told, out, set_of

from lastbolt.actions import board as board_room
from lastbolt.actions.board import Board, Kept
from lastbolt.actions.record import record
from lastbolt.actions.verify import Bench
from lastbolt.store.summary_rows import SummaryRows


class Counting:
    """A journal that counts whose lines are read."""

    def __init__(self, journal):
        self.journal, self.read = journal, []

    def heads(self):
        return self.journal.heads()

    def lines(self, job):
        self.read.append(job)
        return self.journal.lines(job)


def started(wired):
    """Open board and bench as after a start; give them and the counting journal."""
    counting, kept = Counting(wired.journal), Kept(SummaryRows(wired.database))
    return Board(wired.look_up, Bench(counting, kept), kept), counting


def tell(wired, clock, job, machine, *lines):
    story = Told(job=job, machine=machine)
    for kind, fields in lines:
        story.say(kind, **fields)
    number = int(job.split()[1])
    raws = [raw | {"id": f"019df000-0000-7000-8{number:03d}-{k:012d}"} for k, raw in enumerate(story.raws)]
    record(wired.journal, clock, [raw | {"device": f"phone {job}"} for raw in raws])


@pytest.fixture
def shop(wired, clock):
    tell(wired, clock, "job 1", "crane", set_of(4), out(4))
    tell(wired, clock, "job 2", "crane", set_of(2, "CAP"))
    tell(wired, clock, "job 3", "launch")
    return wired


def rows(board):
    return {each.known.job: astuple(each.row) for each in board.rows()}


def test_after_a_start_nothing_is_folded_that_was_kept(shop):
    first, counting = started(shop)
    before = rows(first)
    assert sorted(set(counting.read)) == ["job 1", "job 2", "job 3"]
    again, counting = started(shop)
    assert rows(again) == before and counting.read == []
    assert before["job 1"][4] > 0


def test_one_more_entry_folds_its_job_and_those_of_its_machine(shop, clock):
    rows(started(shop)[0])
    board, counting = started(shop)
    rows(board)
    more = {
        "id": "019df000-0000-7000-8001-00000000ffff", "job": "job 1", "device": "phone job 1", "seq": 99,
        "at": "2026-12-01T08:00:00+00:00", "by": "Ana", "kind": "part-removed", "part": "LID",
    }  # fmt: skip
    record(shop.journal, clock, [more])
    after = rows(board)
    assert set(counting.read) == {"job 1", "job 2"}
    assert after == rows(started(shop)[0])


def test_the_very_same_lines_while_nothing_changed(shop):
    board, _ = started(shop)
    assert board.rows() is board.rows()


def test_another_check_set_or_shape_makes_all_of_it_anew(shop, monkeypatch):
    before = rows(started(shop)[0])
    monkeypatch.setattr(board_room, "made_by", lambda: "another one")
    board, counting = started(shop)
    assert rows(board) == before
    assert set(counting.read) == {"job 1", "job 2", "job 3"}


def test_rebuild_throws_away_what_was_kept(shop):
    before = rows(started(shop)[0])
    shop.journal.rebuild()
    assert SummaryRows(shop.database).all() == []
    assert rows(started(shop)[0]) == before


def test_while_a_server_that_started_still_judges_the_board_answers_with_what_was_kept(shop, clock):
    first, _ = started(shop)
    before = rows(first)
    tell(shop, clock, "job 4", "ketch")
    board, counting = started(shop)
    board.is_prepared = False

    listed, owed = board.at_once()

    assert counting.read == [], "nothing is folded for it"
    assert owed == 4 and {each.known.job for each in listed} == {"job 1", "job 2", "job 3"}
    assert all(each.older for each in listed)
    assert {each.known.job: astuple(each.row) for each in listed} == before
    asked = iter([False, False, True])
    board.prepare(lambda: next(asked))
    listed, owed = board.at_once()
    assert owed == 2 and sum(not each.older for each in listed) == 2
    board.prepare(lambda: False)
    board.is_prepared = True
    listed, owed = board.at_once()
    assert owed == 0 and {each.known.job for each in listed} == {"job 1", "job 2", "job 3", "job 4"}
    assert not any(each.older for each in listed)


def test_the_list_of_jobs_waits_for_those_alone_of_which_nothing_was_kept(shop, clock):
    first, _ = started(shop)
    rows(first)
    tell(shop, clock, "job 4", "ketch")
    board, counting = started(shop)
    board.is_prepared = False

    older = {each.known.job: each.older for each in board.every_one()}

    assert older == {"job 1": True, "job 2": True, "job 3": True, "job 4": False}
    assert counting.read == ["job 4"], "the others are shown as they were kept"


def test_lines_of_another_check_set_are_shown_until_the_job_is_judged_anew(shop, monkeypatch):
    first, _ = started(shop)
    rows(first)
    monkeypatch.setattr(board_room, "check_set_hash", lambda: "another")
    board, counting = started(shop)
    board.is_prepared = False

    listed, owed = board.at_once()

    assert (len(listed), owed, counting.read) == (3, 3, [])
