import os
import sqlite3

import pytest
from tests.actions.pictures import photo
from tests.builders import Told

from lastbolt.actions.audit import audit
from lastbolt.actions.photograph import take
from lastbolt.actions.record import record
from lastbolt.errors import NotFoundError


@pytest.fixture
def sha256(shop, clock):
    record(shop.journal, clock, Told().told(("container-scanned", {"container": "T1"})).raws)
    return take(shop, photo(), job="job 1").sha256


def test_an_untouched_job_is_whole(shop, sha256):
    found = audit(shop, "job 1")
    assert found.is_whole and (found.entries, found.photos) == (3, 1)
    assert found.head == shop.journal.head("job 1")
    assert found.sentences()[0].endswith(f"Head {found.head}.")


def test_a_changed_entry_is_named(shop, wired, sha256):
    connection = sqlite3.connect(wired.settings.data / "lastbolt.sqlite")
    connection.execute("DROP TRIGGER entries_never_change")
    connection.execute("UPDATE entries SET raw = replace(raw, '\"T1\"', '\"T2\"')")
    connection.commit()
    connection.close()
    found = audit(shop, "job 1")
    changed = shop.journal.lines("job 1")[1].entry["id"]
    assert found.broken is not None and found.broken.entry_id == changed
    assert changed in found.sentences()[0] and not found.is_whole


def test_changed_and_missing_photo_bytes_are_named(shop, wired, sha256):
    path = wired.settings.data / "photos" / sha256[:2] / sha256[2:4] / sha256
    os.chmod(path, 0o644)
    path.write_bytes(path.read_bytes()[:-1])
    found = audit(shop, "job 1")
    assert found.damaged == (sha256,) and "other bytes" in found.sentences()[0]
    path.unlink()
    found = audit(shop, "job 1")
    assert found.missing == (sha256,) and "not here" in found.sentences()[0]


def test_a_voice_note_is_hashed_too_and_every_bit_of_it_counts(shop, wired, clock):
    sound = b"OggS" + bytes(range(256)) * 8
    note = wired.photos.put(sound)
    told = Told().told(("handover-offered", {"to": "Ben", "voice_note": note}))
    record(shop.journal, clock, told.raws)
    found = audit(shop, "job 1")
    assert found.is_whole and "0 photos and 1 voice note are" in found.sentences()[0]
    path = wired.settings.data / "photos" / note[:2] / note[2:4] / note
    os.chmod(path, 0o644)
    for place in (0, len(sound) // 2, len(sound) - 1):
        flipped = bytearray(sound)
        flipped[place] ^= 1
        path.write_bytes(flipped)
        found = audit(shop, "job 1")
        assert not found.is_whole and note in found.sentences()[0] and "voice note" in found.sentences()[0]
    path.unlink()
    found = audit(shop, "job 1")
    assert found.missing_voices == (note,) and "its phone" in found.sentences()[0]


def test_a_job_that_is_not_there_is_told(shop):
    with pytest.raises(NotFoundError):
        audit(shop, "nowhere")


class TestOnThePhone:
    """A photo that a phone's entry names and whose original has not come is on the phone, not lost."""

    SHA = "5" * 64

    @pytest.fixture
    def named(self, shop, clock):
        story = Told().told(("photo-added", {"photo": self.SHA, "sha256": self.SHA, "container": "T1"}))
        record(shop.journal, clock, story.raws)
        return story.raws[-1]["device"]

    def test_it_is_said_to_be_there_and_the_job_is_not_whole(self, shop, named):
        found = audit(shop, "job 1")
        (awaited,) = found.on_phones
        assert (found.missing, found.is_whole, awaited.device) == ((), False, named)
        assert f"still on {named}" in found.sentences()[0] and "nothing of it" in found.sentences()[0]

    def test_a_small_picture_is_said_to_stand_for_it(self, shop, named):
        shop.photos.put_stand_in(self.SHA, b"\xff\xd8\xffsmall")
        (said,) = audit(shop, "job 1").sentences()
        assert f"still on {named}" in said and "only a small picture" in said

    def test_one_taken_back_before_it_went_over_is_waited_for_no_more(self, shop, clock, named):
        story = Told(start="1 09:00").told(("photo-rejected", {"photo": self.SHA, "why": "taken back"}))
        back = {**story.raws[-1], "seq": 9, "device": named}
        record(shop.journal, clock, [back])
        found = audit(shop, "job 1")
        assert (found.missing, found.on_phones, found.is_whole) == ((), (), True)
        void = Told(start="1 10:00").told(("entry-voided", {"entry": back["id"], "reason": "it is needed"}))
        record(shop.journal, clock, [{**void.raws[-1], "seq": 10, "device": named}])
        assert [each.sha256 for each in audit(shop, "job 1").on_phones] == [self.SHA]

    @pytest.mark.parametrize("arrived", [(0, 1, 2), (0, 2, 1), (2, 1, 0)])
    def test_a_voided_void_leaves_it_taken_back_whatever_came_first(self, shop, clock, named, arrived):
        story = Told(start="1 09:00")
        back = story.say("photo-rejected", photo=self.SHA, why="taken back")
        void = story.say("entry-voided", entry=back, reason="it is needed")
        story.say("entry-voided", entry=void, reason="it is not")
        told = [{**raw, "seq": 9 + k, "device": f"phone {k}"} for k, raw in enumerate(story.raws[1:])]
        for number in arrived:
            record(shop.journal, clock, [told[number]])
        assert audit(shop, "job 1").on_phones == ()

    def test_a_rejection_that_was_replaced_sets_another_photo_aside(self, shop, clock, named):
        story = Told(start="1 09:00")
        back = story.say("photo-rejected", photo=self.SHA, why="taken back")
        story.say("entry-replaced", entry=back, fields={"photo": "another"}, reason="it was the other one")
        record(shop.journal, clock, [{**raw, "seq": 9 + k} for k, raw in enumerate(story.raws[1:])])
        assert [each.sha256 for each in audit(shop, "job 1").on_phones] == [self.SHA]

    def test_one_that_was_here_once_is_missing(self, shop, named):
        shop.photos.put_preview(self.SHA, b"\xff\xd8\xffmade here from the original")
        found = audit(shop, "job 1")
        assert (found.missing, found.on_phones) == ((self.SHA,), ())
