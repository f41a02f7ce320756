"""Parts of a photo on their way in: a full disk is told as such, and sweeping meets those that come and go."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from lastbolt.errors import DiskFullError
from lastbolt.store import arriving_photos
from lastbolt.store.arriving_photos import ArrivingPhotos

SHA256 = "ab" * 32


def test_a_full_disk_is_told_as_full_and_the_part_before_stays(tmp_path, monkeypatch) -> None:
    photos = ArrivingPhotos(tmp_path, 10 * arriving_photos.PART_BYTES)
    photos.put(SHA256, 0, bytes(arriving_photos.PART_BYTES))

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(arriving_photos, "_write_at", full)
    with pytest.raises(DiskFullError, match="free some room"):
        photos.put(SHA256, 1, b"more")
    assert photos.parts(SHA256) == 1


def test_a_photo_that_is_taken_in_while_old_ones_are_swept_is_no_trouble(tmp_path, monkeypatch) -> None:
    photos = ArrivingPhotos(tmp_path, 1000)
    for name in (SHA256, "cd" * 32):
        photos.put(name, 0, b"part")
        os.utime(tmp_path / name, (0, 0))
    found = list(tmp_path.glob("*"))
    photos.drop(SHA256)
    monkeypatch.setattr(Path, "glob", lambda self, pattern: iter(found))

    assert photos.sweep(before=1.0) == 1
    assert os.listdir(tmp_path) == []
