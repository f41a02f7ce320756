"""The power cut at every moment of keeping photos, what was not forced to disk lost or reordered.

Held against what the photo folder promises: an acknowledged photo is there, no photo is there by half.
"""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest
from tests.faults.length import figures, short_or_long
from tests.faults.power import Recorder, after_a_cut, laid_out

from lastbolt.store.photo_files import PhotoFiles


def kept_photos(folder: Path, n: int, monkeypatch, *, lame: frozenset[str] = frozenset()) -> Recorder:
    """Keep photos with previews and one stand-in while every call to the system is written down."""
    folder.mkdir()
    recorder = Recorder(folder, lame=lame)
    photos = PhotoFiles(folder)
    with monkeypatch.context() as patch:
        recorder.put_in(patch)
        for number in range(n):
            photo = f"photo {number} ".encode() * 400
            sha256 = photos.put(photo)
            recorder.acknowledge((sha256, photo))
            photos.put_preview(sha256, b"small " + photo[:20])
    return recorder


def losses(recorder: Recorder, root: Path, scratch: Path) -> tuple[int, int, int]:
    """Count states looked at, acknowledged photos lost in them, and photos there by half."""
    chance = random.Random(5)
    states = lost = half = 0
    for disk, waiting, told in recorder.moments:
        for found in after_a_cut(disk, waiting, chance):
            target = scratch / str(states)
            laid_out(found, root, target)
            photos = PhotoFiles(target)
            photos.sweep()
            states += 1
            lost += sum(photos.state(sha256) != "here" for sha256, _ in told)
            named = [path.name for path in target.glob("??/??/*") if len(path.name) == 64]
            half += sum(photos.state(name) != "here" for name in named)
            half += len(list(target.glob("**/.arriving-*")))
            for sha256, photo in told:
                assert photos.put(photo) == sha256 and photos.state(sha256) == "here"
            shutil.rmtree(target)
    return states, lost, half


def test_no_power_cut_loses_an_acknowledged_photo_or_leaves_half_of_one(tmp_path, monkeypatch):
    root = tmp_path / "photos"
    recorder = kept_photos(root, short_or_long(3, 40), monkeypatch)
    (tmp_path / "after").mkdir()
    states, lost, half = losses(recorder, root, tmp_path / "after")
    figures("power cuts", moments=len(recorder.moments), states=states, lost=lost, half=half)
    assert states > 40 and (lost, half) == (0, 0)


@pytest.mark.parametrize(("without", "is_lost"), [("file", False), ("folder", True)])
def test_the_model_shows_what_happens_without_a_sync(tmp_path, monkeypatch, without, is_lost):
    root = tmp_path / "photos"
    recorder = kept_photos(root, 2, monkeypatch, lame=frozenset({without}))
    (tmp_path / "after").mkdir()
    _, lost, half = losses(recorder, root, tmp_path / "after")
    assert lost > 0 and (half > 0) == (not is_lost)
