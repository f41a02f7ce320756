import subprocess

import pytest
from tests.web import shop as invented

from lastbolt.actions.check_bundle import MisfitError, check_photos
from lastbolt.actions.exchange import photo_hashes
from lastbolt.actions.voice import is_voice, too_long
from lastbolt.journal import Line


@pytest.fixture(scope="module")
def spoken(tmp_path_factory):
    """Sounds written by an independent program, where the system has it: WebM and Ogg by ffmpeg."""
    folder, found = tmp_path_factory.mktemp("sounds"), {}
    for ending in ("webm", "ogg", "m4a"):
        path = folder / f"note.{ending}"
        words = ["ffmpeg", "-f", "lavfi", "-i", "sine=duration=1", "-loglevel", "error", str(path)]
        try:
            subprocess.run(words, check=True, capture_output=True)
        except (OSError, subprocess.CalledProcessError):
            continue
        found[ending] = path.read_bytes()
    return found


HEADS = {
    "webm": b"\x1a\x45\xdf\xa3\x9f\x42\x86\x81\x01",
    "ogg": b"OggS\x00\x02",
    "m4a": b"\x00\x00\x00\x1cftypM4A \x00\x00\x02\x00",
}


@pytest.mark.parametrize("ending", HEADS)
def test_what_browsers_record_is_known_by_its_first_bytes(ending, spoken):
    assert is_voice(spoken.get(ending, HEADS[ending]))
    assert is_voice(HEADS[ending])


def test_a_picture_and_a_heic_are_no_voice():
    assert not is_voice(invented.picture("a tray"))
    assert not is_voice(b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")
    assert not is_voice(b"")


def test_a_voice_note_has_a_limit_said_in_words():
    assert too_long(b"OggS" + bytes(100)) is None
    assert "4 MiB" in (too_long(b"OggS" + bytes(5 * 2**20)) or "")


def test_a_voice_note_goes_along_when_its_job_goes_out():
    photo, voice = "a" * 64, "b" * 64
    entries = [
        {"kind": "photo-added", "sha256": photo},
        {"kind": "handover-offered", "voice_note": voice},
        {"kind": "handover-offered", "voice_note": "tape 3"},
    ]
    lines = [Line("job", n, "", "", "", raw) for n, raw in enumerate(entries, start=1)]
    assert photo_hashes(lines) == [photo, voice]


def test_an_export_that_lost_a_named_voice_note_does_not_fit():
    manifest = {"members": {"photos/" + "b" * 64: {"sha256": "b" * 64}}, "left_out": []}
    entries = [{"kind": "handover-offered", "voice_note": "b" * 64}]
    check_photos(manifest, entries)
    check_photos({"members": {}, "left_out": [{"sha256": "b" * 64}]}, entries)
    with pytest.raises(MisfitError, match="b" * 64):
        check_photos({"members": {}, "left_out": []}, entries)
