"""Copies of photos without where, when and by which camera: the picture's own bytes stay as they were."""

from __future__ import annotations

from itertools import pairwise

_KEPT_APPS = {0xE0: b"JFIF\0", 0xE2: b"ICC_PROFILE\0", 0xEE: b"Adobe"}
"""What a decoder needs for the colours: JFIF, the colour profile, and Adobe's colour transform."""
_ALONE = {0x01, *range(0xD0, 0xD8)}
_PNG = b"\x89PNG\r\n\x1a\n"
_KEPT_CHUNKS = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"pHYs"}
_PNG_SIZE_MARKS = 12


def plain_picture(photo: bytes) -> bytes | None:
    """Give a JPEG or PNG without its facts, previews and anything behind its end; None for other kinds.

    Nothing is decoded or compressed anew. A JPEG keeps which way is up; a PNG keeps its colours.

    >>> plain_picture(b"no picture") is None
    True
    """
    try:
        if photo.startswith(b"\xff\xd8\xff"):
            return _plain_jpeg(photo)
        if photo.startswith(_PNG):
            return _plain_png(photo)
    except IndexError:
        return None
    return None


def _plain_jpeg(photo: bytes) -> bytes | None:
    kept: list[bytes] = []
    way_up, at = 1, 2
    while True:
        if photo[at] != 0xFF:
            return None
        marker = photo[at + 1]
        if marker == 0xFF:
            at += 1
            continue
        if marker == 0xD9:
            return b"\xff\xd8" + _exif_of(way_up) + b"".join(kept) + b"\xff\xd9"
        end = at + 2 if marker in _ALONE else at + 2 + int.from_bytes(_exactly(photo, at + 2, 2), "big")
        segment = _exactly(photo, at, end - at)
        if marker == 0xE1 and segment[4:10] == b"Exif\0\0":
            way_up = _way_up(segment[10:])
        if _is_kept(marker, segment):
            kept.append(segment)
        at = end
        if marker == 0xDA:
            end = _end_of_scan(photo, at)
            kept.append(photo[at:end])
            at = end


def _is_kept(marker: int, segment: bytes) -> bool:
    if marker == 0xFE:
        return False
    if 0xE0 <= marker <= 0xEF:
        return marker in _KEPT_APPS and segment[4:].startswith(_KEPT_APPS[marker])
    return True


def _end_of_scan(photo: bytes, at: int) -> int:
    """Find the next marker behind compressed data; stuffed zeros and restarts belong to the data."""
    while True:
        at = photo.find(b"\xff", at)
        if at < 0:
            raise IndexError("cut short")
        following = photo[at + 1]
        if following not in (0x00, 0xFF) and not 0xD0 <= following <= 0xD7:
            return at
        at += 1 if following == 0xFF else 2


def _way_up(tiff: bytes) -> int:
    """Read the orientation (EXIF tag 0x0112) of the first directory; 1 where there is none."""
    order = {b"II": "little", b"MM": "big"}.get(tiff[:2])

    def whole(at: int, size: int) -> int:
        return int.from_bytes(tiff[at : at + size], "little" if order == "little" else "big")

    if order is None:
        return 1
    first = whole(4, 4)
    for entry in range(first + 2, first + 2 + 12 * min(whole(first, 2), 500), 12):
        if whole(entry, 2) == 0x0112:
            value = whole(entry + 8, 2)
            return value if 1 <= value <= 8 else 1
    return 1


def _exif_of(way_up: int) -> bytes:
    if way_up == 1:
        return b""
    entry = b"\x01\x12\x00\x03\x00\x00\x00\x01" + way_up.to_bytes(2, "big") + b"\0\0"
    tiff = b"MM\0*\0\0\0\x08\0\x01" + entry + b"\0\0\0\0"
    body = b"Exif\0\0" + tiff
    return b"\xff\xe1" + (len(body) + 2).to_bytes(2, "big") + body


def _plain_png(photo: bytes) -> bytes | None:
    at, bounds = len(_PNG), [len(_PNG)]
    while at < len(photo):
        at += _PNG_SIZE_MARKS + int.from_bytes(_exactly(photo, at, 4), "big")
        bounds.append(at)
        if photo[bounds[-2] + 4 : bounds[-2] + 8] == b"IEND":
            break
    chunks = [_exactly(photo, start, end - start) for start, end in pairwise(bounds)]
    if not chunks or chunks[-1][4:8] != b"IEND":
        return None
    return _PNG + b"".join(chunk for chunk in chunks if chunk[4:8] in _KEPT_CHUNKS)


def _exactly(data: bytes, at: int, size: int) -> bytes:
    part = data[at : at + size]
    if len(part) != size or size <= 0:
        raise IndexError("cut short")
    return part
