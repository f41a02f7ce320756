"""HEIC photos with the optional reader and without it; the files are written by libheif, which is not ours."""

import io
import random
import sys

import numpy as np
import pillow_heif
import pytest
from PIL import Image

from lastbolt.vision.outcome import Photo, Unusable
from lastbolt.vision.pixels import read_photo

SIZE = (320, 240)


def _picture() -> Image.Image:
    across, down = np.meshgrid(np.linspace(0, 255, SIZE[0]), np.linspace(0, 255, SIZE[1]))
    return Image.fromarray(np.dstack([across, down, 255 - across]).astype(np.uint8))


def _heic(*, orientation: int | None = None) -> bytes:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = "2026:05:04 07:08:09"
    if orientation is not None:
        exif[0x0112] = orientation
    out = io.BytesIO()
    pillow_heif.from_pillow(_picture()).save(out, quality=90, exif=exif.tobytes())
    return out.getvalue()


def test_with_its_reader_a_heic_photo_is_read_with_its_time() -> None:
    photo = read_photo(_heic())
    assert isinstance(photo, Photo)
    assert (photo.facts.format, photo.facts.width, photo.facts.height) == ("HEIC", *SIZE)
    assert photo.facts.taken_text == "2026:05:04 07:08:09"
    apart = np.abs(photo.image.astype(int) - np.asarray(_picture()).astype(int))
    assert apart.mean() < 4.0


def test_a_heic_photo_stands_upright_once() -> None:
    photo = read_photo(_heic(orientation=6))  # stored lying; to be shown turned right by a quarter
    assert isinstance(photo, Photo)
    assert (photo.facts.width, photo.facts.height) == (SIZE[1], SIZE[0])
    turned = np.asarray(_picture().transpose(Image.Transpose.ROTATE_270)).astype(int)
    assert np.abs(photo.image.astype(int) - turned).mean() < 4.0


def test_mangled_heic_files_are_read_or_refused_and_never_crash() -> None:
    whole, chance = _heic(), random.Random(7)
    answers = []
    for k in range(40):
        bytes_now = bytearray(whole[: chance.randrange(64, len(whole))] if k % 3 == 0 else whole)
        for _ in range(6):
            bytes_now[chance.randrange(12, len(bytes_now))] = chance.randrange(256)
        answers.append(read_photo(bytes(bytes_now)))
    refused = [answer for answer in answers if isinstance(answer, Unusable)]
    assert refused
    assert all(answer.reason.endswith(".") for answer in refused)


def test_without_its_reader_a_heic_photo_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    photo = _heic()
    monkeypatch.setitem(sys.modules, "pillow_heif", None)  # what Python itself does where it is not installed
    refused = read_photo(photo)
    assert isinstance(refused, Unusable)
    assert "lastbolt[heic]" in refused.reason
    assert "JPEG" in refused.reason
