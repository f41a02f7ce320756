"""A tray that looks cleared is held against its own earlier photo; the pictures are the sample's and drawn on."""

import hashlib
from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
import pytest
from tests.builders import Told

from lastbolt.actions.photograph import Hint, take
from lastbolt.actions.record import record
from lastbolt.label_code import code_in, make
from lastbolt.readers.here import ReaderHere
from lastbolt.vision.look import look

EMPTY = (Path(__file__).resolve().parents[2] / "samples/photos/29-cleared-tray-116.jpg").read_bytes()
TRAY = make("T", 116)


def with_scrap(photo: bytes) -> bytes:
    """Lay a scrap on the floor that is no fastener, so that the counting leaves it out."""
    image = cv2.imdecode(np.frombuffer(photo, np.uint8), cv2.IMREAD_COLOR)
    scrap = np.array([[500, 500], [600, 480], [610, 540], [520, 560]])
    cv2.fillPoly(image, [scrap], (40, 40, 200), cv2.LINE_AA)
    return cv2.imencode(".jpg", image, [cv2.IMWRITE_JPEG_QUALITY, 92])[1].tobytes()


LATER = with_scrap(EMPTY)


class Counting(ReaderHere):
    """The true reader, which also says how often it was asked to compare."""

    def __init__(self) -> None:
        super().__init__(300)
        self.compared = 0

    def read(self, photo, *, device, earlier=None):
        self.compared += earlier is not None
        return super().read(photo, device=device, earlier=earlier)


@pytest.fixture
def tray_shop(shop, clock):
    story = Told(job="job 1", start="1 08:00")
    story.say("label-bound", label=TRAY, container="tray 116")
    record(shop.journal, clock, story.raws)
    return shop


def counts(shop):
    return [line.entry for line in shop.journal.lines("job 1") if line.entry["kind"] == "photo-counted"]


def test_the_scrap_alone_is_not_counted_and_without_an_earlier_photo_nothing_speaks_of_it():
    seen = look(LATER, code_in)
    assert (seen.count.count, seen.unsure) == (0, ())


def test_a_cleared_tray_with_something_new_in_it_is_not_recorded_as_empty(tray_shop):
    first = take(tray_shop, EMPTY, job="job 1", hint=Hint(live=True))
    assert first.sentence == "Kept, on tray 116." and [each["n"] for each in counts(tray_shop)] == [0]
    again = take(tray_shop, LATER, job="job 1", hint=Hint(live=True))
    assert again.outcome == "kept" and "Unsure whether it is empty: 1 thing" in again.sentence
    assert len(counts(tray_shop)) == 1


def test_a_photo_that_comes_after_its_entry_is_held_against_the_earlier_one_too(tray_shop, clock):
    take(tray_shop, EMPTY, job="job 1", hint=Hint(live=True))
    sha256 = hashlib.sha256(LATER).hexdigest()
    story = Told(job="job 1", start="3 08:00")
    story.say(
        "photo-added", photo=sha256, sha256=sha256, container="tray 116", shape="tray", device="phone 9"
    )
    record(tray_shop.journal, clock, story.raws[1:])
    assert "Unsure whether it is empty" in take(tray_shop, LATER, job="job 1").sentence
    assert len(counts(tray_shop)) == 1


def test_the_same_empty_tray_again_is_counted_as_empty_again(tray_shop):
    take(tray_shop, EMPTY, job="job 1", hint=Hint(live=True))
    same = cv2.imencode(".jpg", cv2.imdecode(np.frombuffer(EMPTY, np.uint8), 1), [1, 80])[1].tobytes()
    assert take(tray_shop, same, job="job 1", hint=Hint(live=True)).sentence == "Kept, on tray 116."
    assert [each["n"] for each in counts(tray_shop)] == [0, 0]


def test_nothing_is_compared_without_an_earlier_empty_photo_of_that_tray_or_when_parts_are_seen(tray_shop):
    reader = Counting()
    watched = replace(tray_shop, reader=reader)
    take(watched, EMPTY, job="job 1", hint=Hint(live=True))
    assert reader.compared == 0
    take(watched, LATER, job="job 1", hint=Hint(container="tray 9", live=True))
    assert reader.compared == 0
    full = (
        Path(__file__).resolve().parents[2] / "samples/photos/12-thermostat-housing-bolts.jpg"
    ).read_bytes()
    take(watched, full, job="job 1", hint=Hint(container="tray 116", live=True))
    assert reader.compared == 0
