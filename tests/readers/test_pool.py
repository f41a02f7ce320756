"""What a hostile picture does to its reader process costs that process alone."""

import os
import signal
import threading
import time
from dataclasses import replace

import pytest
from tests.actions.pictures import bomb, photo
from tests.actions.test_cleared import with_scrap
from tests.readers.hostile import BOUNDS, Spoilt

from lastbolt.errors import StoreError
from lastbolt.readers.here import ReaderHere
from lastbolt.readers.pool import ReaderPool
from lastbolt.vision.outcome import Reading, Unusable
from lastbolt.vision.reading import look_from_json, look_to_json


@pytest.fixture(scope="module")
def pool():
    pool = ReaderPool(1, BOUNDS)
    pool.warm()
    yield pool
    pool.close()


@pytest.fixture(scope="module")
def spoilt():
    pool = ReaderPool(1, BOUNDS, start=Spoilt)
    yield pool
    pool.close()


def test_a_photo_read_elsewhere_says_what_it_says_here(pool):
    data = photo("T-0042-E", "T-0043-C", taken="2026:03:09 08:00:00", offset="+02:00")
    here, there = ReaderHere(300).read(data, device="a"), pool.read(data, device="a")
    assert isinstance(here, Reading) and isinstance(there, Reading)
    assert look_to_json(here.seen) == look_to_json(there.seen)
    assert there.preview == here.preview and there.preview.startswith(b"\xff\xd8")
    assert [mark.text for mark in there.seen.labels] == ["T-0042-E", "T-0043-C"]


def test_a_glance_waits_for_no_photo_of_a_dozen_that_wait():
    """The count pad comes next: a dozen photos wait, and it is answered after the one that is being read."""
    pool = ReaderPool(1, BOUNDS)
    for read in (pool.read, pool.glance):
        assert isinstance(read(photo("T-0042-E"), device="a phone"), Reading)
    done: list[str] = []

    def upload(n):
        pool.read(photo("T-0042-E"), device="a phone")
        done.append(str(n))

    waiting = [threading.Thread(target=upload, args=(n,)) for n in range(12)]
    for each in waiting:
        each.start()
    began = time.monotonic()
    seen = pool.glance(photo("T-0042-E"), device="a phone")
    took, behind = time.monotonic() - began, len(done)
    for each in waiting:
        each.join()
    pool.close()
    print(f"\na glance while a dozen photos wait: {took:.2f} s, {behind} of them read by then")
    assert isinstance(seen, Reading) and behind <= 2


def test_a_look_written_and_read_is_the_same():
    here = ReaderHere(300).read(photo("T-0042-E"), device="a")
    assert isinstance(here, Reading)
    again = look_from_json(look_to_json(here.seen))
    assert look_to_json(again) == look_to_json(here.seen)
    assert again.to_json_dict("a") == here.seen.to_json_dict("a") and again.facts == here.seen.facts


def test_what_is_refused_is_refused_in_the_same_words(pool):
    for data in (b"", b"<html>", bomb(), photo()[:-3000]):
        here, there = ReaderHere(300).read(data, device="a"), pool.read(data, device="a")
        assert isinstance(here, Unusable) and there == here


def test_a_reader_that_was_killed_between_two_photos_is_replaced_unseen(pool):
    (before,) = pool.pids()
    os.kill(before, signal.SIGKILL)
    assert isinstance(pool.read(photo(), device="a"), Reading)
    assert pool.pids() != (before,)


@pytest.mark.parametrize(
    ("evil", "why"), [(b"crash", "broke off"), (b"grow", "more memory"), (b"lie", "broke off")]
)
def test_a_picture_that_ends_its_reader_is_answered_and_the_next_photo_is_read(spoilt, evil, why):
    answer = spoilt.read(evil, device="a")
    assert isinstance(answer, Unusable) and why in answer.reason and answer.reason.count(".") == 1
    assert isinstance(spoilt.read(photo(), device="a"), Reading)


def test_a_reader_writes_no_file(spoilt, tmp_path):
    target = tmp_path / "written"
    answer = spoilt.read(b"write" + str(target).encode(), device="a")
    assert isinstance(answer, Unusable) and "broke off" in answer.reason
    assert not target.exists() or target.read_bytes() == b""


def test_a_picture_that_never_ends_is_ended():
    pool = ReaderPool(1, replace(BOUNDS, seconds=3), start=Spoilt)
    try:
        assert isinstance(pool.read(photo(), device="a"), Reading)
        answer = pool.read(b"hang", device="a")
        assert isinstance(answer, Unusable) and "longer than 3 s" in answer.reason
        assert isinstance(pool.read(photo(), device="a"), Reading)
    finally:
        pool.close()


def test_a_reader_without_its_server_ends(pool):
    own = ReaderPool(1, BOUNDS)
    own.read(photo(), device="a")
    (process,) = own._pool._running
    assert process._process.stdin is not None
    process._process.stdin.close()
    assert process._process.wait(10) == 0
    own.close()


def test_closing_while_a_photo_is_read_ends_all_processes_and_answers():
    pool, said = ReaderPool(1, BOUNDS, start=Spoilt), []
    pool.warm()

    def ask() -> None:
        try:
            said.append(pool.read(b"hang", device="a"))
        except StoreError as error:
            said.append(str(error))

    asking = [threading.Thread(target=ask) for _ in range(2)]
    for thread in asking:
        thread.start()
    while len(pool.queue().waiting) < 1:
        time.sleep(0.01)
    assert pool.queue().reading == ("a",)
    pool.close()
    for thread in asking:
        thread.join(10)
    assert [isinstance(words, str) and "stopping" in words for words in said] == [True, True]
    assert pool.pids() == ()


def test_an_earlier_photo_goes_along_to_the_process(pool):
    """The drawn floor has nothing on it; the scrap laid on it is new, and no part."""
    before = photo("T-0042-E")
    now = with_scrap(before)
    alone, compared = pool.read(now, device="a"), pool.read(now, device="a", earlier=before)
    assert isinstance(alone, Reading) and isinstance(compared, Reading)
    assert alone.seen.count.count == compared.seen.count.count == 0
    assert not any("earlier photo" in doubt for doubt in alone.seen.unsure)
    assert any("earlier photo" in doubt for doubt in compared.seen.unsure)


def test_a_photo_of_a_phone_that_waits_is_not_in_memory_yet(pool):
    """Photos are brought when it is their turn; the reader that a turn gives waits for nobody again."""
    brought: list[str] = []

    def send(device: str) -> None:
        with pool.turn(device=device) as reader:
            brought.append(device)
            assert isinstance(reader.read(photo("T-0042-E"), device=device), Reading)
            assert isinstance(reader.glance(photo("T-0042-E"), device=device), Reading)
            with reader.turn(device=device) as again:
                assert again is reader

    with pool.turn(device="first"):
        others = [threading.Thread(target=send, args=(name,)) for name in ("a", "b")]
        for number, each in enumerate(others):
            each.start()
            while len(pool.queue().waiting) <= number:
                time.sleep(0.001)
        assert brought == [] and pool.queue().waiting == ("a", "b") and pool.queue().reading == ("first",)
    for each in others:
        each.join(60)
    assert brought == ["a", "b"] and pool.queue().reading == ()
