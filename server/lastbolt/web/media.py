"""What kind of picture or sound some bytes are, decided by the bytes alone."""

from __future__ import annotations

from typing import NamedTuple

from ..actions.voice import MP4_BRANDS


class Media(NamedTuple):
    """A media type, and the ending that a file of it gets."""

    type: str
    suffix: str


UNKNOWN = Media("application/octet-stream", "bin")
BEGINNINGS = (
    (b"\xff\xd8\xff", Media("image/jpeg", "jpg")),
    (b"\x89PNG\r\n\x1a\n", Media("image/png", "png")),
    (b"II*\x00", Media("image/tiff", "tif")),
    (b"MM\x00*", Media("image/tiff", "tif")),
    (b"GIF8", Media("image/gif", "gif")),
    (b"BM", Media("image/bmp", "bmp")),
    (b"\x1a\x45\xdf\xa3", Media("audio/webm", "webm")),
    (b"OggS", Media("audio/ogg", "ogg")),
)
HEIC_BRANDS = frozenset({b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1"})


def media_of(data: bytes) -> Media:
    """Tell a picture's kind from its first bytes.

    >>> media_of(b"\\xff\\xd8\\xff\\xe0").type, media_of(b"<html>").type
    ('image/jpeg', 'application/octet-stream')
    """
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return Media("image/webp", "webp")
    if data[4:8] == b"ftyp" and data[8:12] in HEIC_BRANDS:
        return Media("image/heic", "heic")
    if data[4:8] == b"ftyp" and data[8:12] == b"avif":
        return Media("image/avif", "avif")
    if data[4:8] == b"ftyp" and data[8:12] in MP4_BRANDS:
        return Media("audio/mp4", "m4a")
    return next((media for beginning, media in BEGINNINGS if data.startswith(beginning)), UNKNOWN)
