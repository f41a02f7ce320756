"""Bytes to upright pixels: every kind of file that a phone or a mischief-maker may send."""

import io
import random
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from lastbolt.vision.outcome import Photo, Unusable
from lastbolt.vision.pixels import preview, read_photo


def _picture(width: int = 64, height: int = 48) -> Image.Image:
    rows, cols = np.mgrid[0:height, 0:width]
    rgb = np.stack([cols * 3 % 256, rows * 5 % 256, (rows + cols) * 2 % 256], axis=-1).astype(np.uint8)
    return Image.fromarray(rgb)


def _saved(picture: Image.Image, kind: str, **options: object) -> bytes:
    out = io.BytesIO()
    picture.save(out, kind, **options)
    return out.getvalue()


def _png_header(width: int, height: int) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunk = b"IHDR" + head
    return (
        b"\x89PNG\r\n\x1a\n"
        + struct.pack(">I", 13)
        + chunk
        + struct.pack(">I", zlib.crc32(chunk))
        + b"\0\0\0\x10IDAT"
        + b"\0" * 20
    )


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF", "BMP", "GIF"])
def test_still_pictures_of_common_kinds_are_read(kind: str) -> None:
    photo = read_photo(_saved(_picture(), kind))
    assert isinstance(photo, Photo)
    assert photo.image.shape == (48, 64, 3)
    assert photo.image.dtype == np.uint8
    assert photo.facts.format == kind
    assert (photo.facts.width, photo.facts.height) == (64, 48)


def test_the_red_channel_comes_first() -> None:
    red = Image.new("RGB", (40, 40), (250, 10, 20))
    for kind in ("JPEG", "PNG"):
        photo = read_photo(_saved(red, kind))
        assert photo
        assert photo.image[20, 20].tolist() == pytest.approx([250, 10, 20], abs=4)


def test_cmyk_grey_sixteen_bit_and_transparent_pictures_become_plain_rgb() -> None:
    cmyk = read_photo(_saved(_picture().convert("CMYK"), "JPEG"))
    grey = read_photo(_saved(_picture().convert("L"), "JPEG"))
    deep = read_photo(_saved(Image.fromarray(np.full((32, 32), 40000, np.uint16)), "PNG"))
    clear = read_photo(_saved(Image.new("RGBA", (32, 32), (0, 0, 0, 0)), "PNG"))
    assert cmyk and grey and deep and clear
    assert {p.image.shape[2] for p in (cmyk, grey, deep, clear)} == {3}
    assert deep.image.mean() == pytest.approx(40000 * 255 / 65535, abs=1)
    assert clear.image.min() == 255  # what is transparent is shown on white


def test_the_first_picture_of_a_two_picture_file_is_read() -> None:
    both = _saved(_picture(), "MPO", save_all=True, append_images=[Image.new("RGB", (64, 48))])
    photo = read_photo(both)
    assert photo
    assert photo.image.mean() > 20


@pytest.mark.parametrize(
    ("name", "data", "word"),
    [
        ("nothing", b"", "empty"),
        ("text", b"hello, this is no picture at all" * 20, "not a photo"),
        ("pdf", b"%PDF-1.7\n" + b"\0" * 200, "not a photo"),
        ("cut jpeg", _saved(_picture(640, 480), "JPEG")[:3000], "damaged"),
        ("cut png", _saved(_picture(640, 480), "PNG")[:900], "damaged"),
        ("huge", _png_header(60_000, 60_000), "pixels"),
        ("large", _png_header(12_000, 9_000), "limit"),
        ("tiny", _saved(_picture(8, 8), "PNG"), "only 8 x 8"),
        (
            "moving",
            _saved(_picture(), "GIF", save_all=True, append_images=[Image.new("RGB", (64, 48))]),
            "anim",
        ),
    ],
)
def test_what_cannot_be_read_is_said_in_one_sentence(name: str, data: bytes, word: str) -> None:
    refused = read_photo(data)
    assert isinstance(refused, Unusable), name
    assert not refused
    assert word in refused.reason
    assert refused.reason.endswith(".")


def test_time_and_focal_length_come_from_the_exif_block() -> None:
    exif = Image.Exif()
    inner = exif.get_ifd(0x8769)
    inner[0x9003], inner[0x9011], inner[0x920A], inner[0xA405] = "2026:03:14 15:09:26", "+01:00", 5.4, 26
    facts = read_photo(_saved(_picture(), "JPEG", exif=exif.tobytes())).facts  # type: ignore[union-attr]
    assert (facts.taken_text, facts.offset_text) == ("2026:03:14 15:09:26", "+01:00")
    assert (facts.focal_mm, facts.focal_35mm) == (pytest.approx(5.4), 26.0)


@pytest.mark.parametrize(
    ("taken", "offset"), [("    :  :     :  :  ", "   :  "), ("yesterday", "Z"), ("", "")]
)
def test_blank_or_odd_times_are_unknown(taken: str, offset: str) -> None:
    exif = Image.Exif()
    inner = exif.get_ifd(0x8769)
    inner[0x9003], inner[0x9011] = taken, offset
    facts = read_photo(_saved(_picture(), "JPEG", exif=exif.tobytes())).facts  # type: ignore[union-attr]
    assert (facts.taken_text, facts.offset_text) == (None, None)


def test_a_rotten_exif_block_costs_the_date_and_not_the_photo() -> None:
    good = _saved(_picture(), "JPEG", exif=b"Exif\0\0MM\0*\0\0\0\x08\xff\xff" + b"\xee" * 40)
    photo = read_photo(good)
    assert photo
    assert photo.facts.taken_text is None


def test_a_preview_is_a_small_jpeg_of_the_same_shape() -> None:
    photo = read_photo(_saved(_picture(640, 480), "PNG"))
    assert photo
    small = Image.open(io.BytesIO(preview(photo.image, 200)))
    assert small.format == "JPEG"
    assert small.size == (200, 150)


def test_mangled_files_are_read_or_refused_and_never_crash() -> None:
    rng = random.Random(20)
    seeds = [_saved(_picture(96, 64), kind) for kind in ("JPEG", "PNG", "WEBP", "GIF", "BMP", "TIFF")]
    for _ in range(240):
        data = bytearray(rng.choice(seeds))
        for _ in range(rng.randrange(1, 12)):
            data[rng.randrange(len(data))] = rng.randrange(256)
        if rng.random() < 0.4:
            del data[rng.randrange(len(data)) :]
        outcome = read_photo(bytes(data), max_pixels=4_000_000)
        assert isinstance(outcome, Photo | Unusable)
