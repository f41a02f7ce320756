"""Facts cut out of photos: nothing of where and when is left, every picture element is as it was."""

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ExifTags, Image, PngImagePlugin

from lastbolt.actions.plain_pictures import plain_picture

NOISE = Image.effect_noise((70, 50), 60).convert("RGB")
SECRET = b"54.3210N"


def exif(orientation=6):
    facts = Image.Exif()
    facts[ExifTags.Base.Orientation] = orientation
    facts[ExifTags.Base.Make] = SECRET.decode()
    facts.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitude] = (54.0, 32.0, 10.0)
    return facts


def saved(kind="JPEG", **how):
    out = io.BytesIO()
    NOISE.save(out, kind, **how)
    return out.getvalue()


def elements(photo):
    with Image.open(io.BytesIO(photo)) as picture:
        return picture.size, picture.tobytes()


JPEGS = {
    "plain": {},
    "progressive": {"progressive": True},
    "restarts": {"restart_marker_blocks": 2},
    "comment and xmp": {"comment": SECRET, "xmp": b"<x>" + SECRET + b"</x>"},
    "colour profile": {"icc_profile": b"profile" * 20},
}


@pytest.mark.parametrize("how", JPEGS.values(), ids=JPEGS)
def test_a_jpeg_keeps_its_picture_and_its_way_up_and_nothing_else(how):
    photo = saved(exif=exif(), **how) + b"\xff\xd8 a second picture " + SECRET
    plain = plain_picture(photo)
    assert plain is not None and elements(plain) == elements(photo) and SECRET not in plain
    with Image.open(io.BytesIO(plain)) as picture:
        facts = picture.getexif()
        assert dict(facts) == {ExifTags.Base.Orientation: 6}
        assert not facts.get_ifd(ExifTags.IFD.GPSInfo)
        assert picture.info.get("icc_profile") == how.get("icc_profile")


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_way_up_is_kept(orientation):
    plain = plain_picture(saved(exif=exif(orientation)))
    with Image.open(io.BytesIO(plain)) as picture:
        assert picture.getexif().get(ExifTags.Base.Orientation, 1) == orientation


def test_a_png_keeps_its_picture_and_nothing_else():
    text = PngImagePlugin.PngInfo()
    text.add_text("Comment", SECRET.decode())
    photo = saved("PNG", exif=exif(), pnginfo=text) + SECRET
    plain = plain_picture(photo)
    assert plain is not None and elements(plain) == elements(photo) and SECRET not in plain


@pytest.mark.parametrize("kind", ["WEBP", "TIFF", "GIF", "BMP"])
def test_other_kinds_are_not_touched_but_refused(kind):
    assert plain_picture(saved(kind)) is None


def test_what_is_cut_short_is_refused():
    for photo in (saved(exif=exif()), saved("PNG")):
        for end in range(3, len(photo) - 1, 97):
            assert plain_picture(photo[:end]) is None


@given(tail=st.binary(max_size=300), beginning=st.sampled_from([b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b""]))
def test_any_bytes_give_an_answer(tail, beginning):
    assert isinstance(plain_picture(beginning + tail), bytes | None)
