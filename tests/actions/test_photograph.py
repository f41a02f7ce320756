import hashlib
import io
import threading
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from tests.actions.pictures import bomb, photo
from tests.builders import Told

from lastbolt.actions.photograph import Hint, _count_fields, count_fields, take, taken_fields
from lastbolt.actions.ports import Limits
from lastbolt.actions.record import record
from lastbolt.errors import NotFoundError
from lastbolt.journal import entry_from
from lastbolt.label_code import code_in, make, shown
from lastbolt.readers.here import ReaderHere
from lastbolt.vision.look import look
from lastbolt.vision.outcome import Count, Look, PhotoFacts, SeenPart

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
TRAY, OTHER, STRANGE = make("T", 42), make("T", 43), make("T", 44)


@pytest.fixture
def open_shop(shop, clock):
    """Two jobs: tray 42 and 43 are in job 1, tray 44 is in job 2."""
    for day, job, bound in ((1, "job 1", (TRAY, OTHER)), (2, "job 2", (STRANGE,))):
        story = Told(job=job, start=f"{day} 08:00")
        for code in bound:
            story.say("label-bound", label=code, container=f"tray {code[1:5]}", step="Open up")
        record(shop.journal, clock, story.raws)
    return shop


def newest(shop, job="job 1"):
    return shop.journal.lines(job)[-1].entry


def test_a_photo_goes_to_the_tray_and_step_that_its_label_is_bound_to(open_shop):
    data = photo(shown(TRAY))
    taken = take(open_shop, data, job="job 1", by="Ana")
    assert (taken.outcome, taken.container) == ("kept", "tray 0042")
    assert taken.sentence == "Kept, on tray 0042."
    entry = newest(open_shop)
    assert entry["kind"] == "photo-added" and entry["sha256"] == hashlib.sha256(data).hexdigest()
    assert (entry["container"], entry["step"], entry["labels"]) == ("tray 0042", "Open up", [TRAY])
    assert (entry["width"], entry["height"], entry["shape"]) == (900, 500, "tray")
    assert (entry["by"], entry["device"], entry["seq"]) == ("Ana", "desk", 1)
    (label,) = taken.shown
    assert (label.code, label.container, label.step, label.name) == (
        TRAY,
        "tray 0042",
        "Open up",
        shown(TRAY),
    )


def test_the_bytes_are_kept_as_they_came_with_a_small_upright_preview(open_shop):
    data = photo(orientation=6)
    taken = take(replace(open_shop, reader=ReaderHere(300)), data, job="job 1")
    assert open_shop.photos.original(taken.sha256) == data
    preview = Image.open(io.BytesIO(open_shop.photos.preview(taken.sha256)))
    assert preview.size[1] == 300 and abs(preview.size[0] - 300 * 500 / 900) < 2
    assert (newest(open_shop)["width"], newest(open_shop)["height"]) == (500, 900)


def test_without_a_person_the_machine_says_who_it_is(open_shop):
    take(open_shop, photo(), job="job 1")
    entry = newest(open_shop)
    assert (entry["role"], entry["mode"]) == ("machine", "machine")
    entry_from(entry)


@pytest.mark.parametrize(
    ("texts", "words"),
    [
        ((), "no label could be read"),
        ((shown(TRAY), shown(OTHER)), "shows 2 labels"),
        ((shown(make("T", 77)),), "is bound to nothing in this job"),
        ((shown(STRANGE),), "belongs to the job job 2"),
        (("https://example.org/menu",), "no label of the shop"),
    ],
)
def test_a_photo_whose_labels_leave_doubt_is_kept_unlinked_and_says_why(open_shop, texts, words):
    taken = take(open_shop, photo(*texts), job="job 1")
    assert (taken.outcome, taken.container) == ("kept", None)
    assert words in taken.sentence
    assert "container" not in newest(open_shop)
    assert len(newest(open_shop)["labels"]) == len(texts)


def test_a_strangers_label_beside_the_trays_own_is_told_and_does_no_harm(open_shop):
    taken = take(open_shop, photo(shown(TRAY), shown(STRANGE)), job="job 1")
    assert taken.container == "tray 0042"
    assert "belongs to the job job 2" in taken.sentence


def test_a_tray_that_a_person_names_counts_more_than_two_labels(open_shop):
    taken = take(open_shop, photo(shown(TRAY), shown(OTHER)), job="job 1", hint=Hint(container="tray 0043"))
    assert taken.container == newest(open_shop)["container"] == "tray 0043"


def test_a_retired_label_is_told(open_shop, clock):
    story = Told(start="3 08:00").told(("label-retired", {"label": TRAY}))
    record(open_shop.journal, clock, story.raws[1:])
    assert "was retired" in take(open_shop, photo(shown(TRAY)), job="job 1").sentence


def test_a_label_on_two_things_names_both(open_shop, clock):
    story = Told(start="3 08:00").told(("label-bound", {"label": TRAY, "container": "bag 9"}))
    record(open_shop.journal, clock, story.raws[1:])
    taken = take(open_shop, photo(shown(TRAY)), job="job 1")
    assert taken.container is None
    assert "bound to bag 9 and to tray 0042" in taken.sentence


WHOLE = photo("whole")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"),
        (b"MZ\x00 this is a program, not a picture" * 20, "send"),
        (WHOLE[: len(WHOLE) // 2], "cut off"),
        (bomb(), "send"),
    ],
    ids=["empty", "no photo", "truncated", "300 megapixels"],
)
def test_what_is_no_whole_photo_is_refused_with_its_reason_and_leaves_nothing(open_shop, wired, data, words):
    before = open_shop.journal.lines("job 1")
    taken = take(open_shop, data, job="job 1")
    assert taken.outcome == "refused" and words in taken.sentence
    assert open_shop.journal.lines("job 1") == before
    assert not (wired.settings.data / "photos").exists()


def test_a_file_over_the_limit_is_refused_unread(open_shop):
    small = replace(open_shop, limits=Limits(1024 * 1024))
    taken = take(small, photo() + bytes(1024 * 1024), job="job 1")
    assert taken.outcome == "refused" and "1 MiB" in taken.sentence


def test_the_same_photo_twice_is_kept_once_and_recorded_once_a_job(open_shop):
    data = photo(shown(TRAY))
    first, again = take(open_shop, data, job="job 1"), take(open_shop, data, job="job 1")
    assert (first.outcome, again.outcome) == ("kept", "here already")
    assert take(open_shop, data, job="job 2").outcome == "kept"
    for job in ("job 1", "job 2"):
        added = [line for line in open_shop.journal.lines(job) if line.entry["kind"] == "photo-added"]
        assert len(added) == 1


def test_the_same_photo_from_two_phones_at_once_is_recorded_once(open_shop):
    data, outcomes = photo("at once"), []
    threads = [
        threading.Thread(target=lambda: outcomes.append(take(open_shop, data, job="job 1").outcome))
        for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["here already"] * 3 + ["kept"]


def test_bytes_that_come_after_their_entry_are_kept_without_a_second_entry(open_shop, clock):
    data = photo("late")
    sha256 = hashlib.sha256(data).hexdigest()
    story = Told(start="3 08:00").told(("photo-added", {"photo": sha256, "sha256": sha256}))
    record(open_shop.journal, clock, story.raws[1:])
    before = open_shop.journal.lines("job 1")
    taken = take(open_shop, data, job="job 1")
    assert taken.outcome == "kept" and "named this photo already" in taken.sentence
    assert open_shop.photos.original(sha256) == data and open_shop.photos.preview(sha256)
    assert open_shop.journal.lines("job 1") == before


def test_a_job_that_is_not_there_is_told(shop):
    with pytest.raises(NotFoundError, match="nowhere"):
        take(shop, photo(), job="nowhere")


def test_the_cameras_time_is_kept_exactly_where_its_zone_is_known(open_shop):
    take(open_shop, photo(taken="2026:03:09 09:59:58", offset="+02:00"), job="job 1")
    assert newest(open_shop)["taken_at"] == "2026-03-09T09:59:58+02:00"
    take(open_shop, photo(taken="2026:03:09 09:59:58"), job="job 1")
    assert newest(open_shop)["taken_at_local"] == "2026-03-09T09:59:58"
    assert "taken_at" not in newest(open_shop)


@pytest.mark.parametrize("wrong", ["2026:13:09 09:59:58", "0000:00:00 00:00:00", "2026:02:30 10:00:00"])
def test_a_time_that_never_was_is_left_out(wrong):
    assert taken_fields(facts(wrong, None)) == {}


def test_an_offset_that_never_was_leaves_the_time_out():
    assert taken_fields(facts("2026:03:09 09:59:58", "+99:00")) == {}


def facts(taken, offset):
    return PhotoFacts("JPEG", 900, 500, 1, taken, offset, None, None)


def seen(clock, count, *, unsure=(), ago_s=60, labels=1):
    """A reading of a photo that was taken some time ago, with so many parts."""
    read = look(photo(*[shown(TRAY)] * labels), code_in)
    assert isinstance(read, Look)
    taken = clock.now.timestamp() - ago_s
    local = clock.now.fromtimestamp(taken, clock.now.tzinfo).strftime("%Y:%m:%d %H:%M:%S")
    outline = np.zeros((4, 2))
    parts = tuple(SeenPart("bolt", outline, 0, 0.9) for _ in range(count.count))
    return replace(read, count=count, unsure=unsure, parts=parts, facts=facts(local, "+00:00"))


def test_a_sure_and_fresh_count_of_one_tray_is_recorded(clock):
    fields = _count_fields(seen(clock, Count(6, 6, 6)), Hint(container="tray 0042"), clock())
    assert fields is not None
    assert (fields["n"], fields["low"], fields["high"], fields["confidence"]) == (6, 6, 6, 0.9)


@pytest.mark.parametrize(
    ("count", "changed"),
    [
        (Count(4, 6, 8), {}),
        (Count(6, 6, 6), {"unsure": ("two outlines may touch",)}),
        (Count(6, 6, 6), {"ago_s": 3600}),
        (Count(6, 6, 6), {"labels": 0}),
    ],
    ids=["wide", "unsure", "old", "no label"],
)
def test_a_count_that_could_mislead_is_not_recorded(clock, count, changed):
    assert _count_fields(seen(clock, count, **changed), Hint(container="tray 0042"), clock()) is None


def test_an_old_photo_said_to_be_of_now_is_counted(clock):
    hint = Hint(container="tray 0042", live=True)
    assert _count_fields(seen(clock, Count(6, 6, 6), ago_s=3600), hint, clock()) is not None


class TestRecordedByAPhone:
    """An entry came first and its photo later: the reader's count becomes an entry of its own, once."""

    def sent(self, shop, clock, data, container="tray 0042"):
        sha256 = hashlib.sha256(data).hexdigest()
        story = Told(job="job 1", start="3 08:00")
        story.say(
            "photo-added", photo=sha256, sha256=sha256, container=container, shape="tray", device="phone 9"
        )
        record(shop.journal, clock, story.raws[1:])
        return sha256

    def test_its_count_is_recorded_once_beside_what_the_person_says(self, open_shop, clock):
        data = (SAMPLES / "photos" / "12-thermostat-housing-bolts.jpg").read_bytes()
        sha256 = self.sent(open_shop, clock, data)
        seen = look(data, code_in)
        for _ in range(2):
            assert take(open_shop, data, job="job 1", by="Ana").outcome in ("kept", "here already")
        counted = [
            line.entry for line in open_shop.journal.lines("job 1") if line.entry["kind"] == "photo-counted"
        ]
        assert count_fields(seen, "tray 0042") is not None
        assert [(each["photo"], each["n"], each["mode"], each["device"]) for each in counted] == [
            (sha256, seen.count.count, "machine", "photo reader")
        ]
        assert len(counted[0]["seen"]) == len(counted[0]["outlines"]) == len(seen.parts)
        for spot, outline in zip(counted[0]["seen"], counted[0]["outlines"], strict=True):
            xs, ys = zip(*outline, strict=True)
            assert 3 <= len(outline) <= 10
            assert min(xs) < spot["x"] < max(xs) and min(ys) < spot["y"] < max(ys)
        entry_from(counted[0])
