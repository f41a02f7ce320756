"""A voice note at a handover: kept byte for byte by its SHA-256 as a photo is; nobody looks into it."""

from __future__ import annotations

from collections.abc import Iterable

from ..journal import Line
from ..said import said

BEGINNINGS = (b"\x1a\x45\xdf\xa3", b"OggS")
"""WebM (RFC 8794: the EBML mark) and Ogg (RFC 3533): what browsers record."""
MP4_BRANDS = frozenset({b"M4A ", b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"mp41", b"mp42"})
LARGEST = 4 * 1024 * 1024
"""Bytes; a minute of speech as browsers record it takes less than one of the four."""


def is_voice(data: bytes) -> bool:
    """Tell from the first bytes whether this is a sound as browsers record it.

    >>> is_voice(b"OggS and more"), is_voice(b"\\xff\\xd8\\xff")
    (True, False)
    """
    return data.startswith(BEGINNINGS) or (data[4:8] == b"ftyp" and data[8:12] in MP4_BRANDS)


def too_long(data: bytes) -> str | None:
    """Say that a voice note is too long to be kept, None when it is not."""
    if len(data) <= LARGEST:
        return None
    return said("A voice note has at most {limit} MiB; speak for a minute.", limit=LARGEST // 2**20)


def voice_notes(lines: Iterable[Line]) -> list[str]:
    """Give the SHA-256 of each voice note that handovers name, each once, in their order."""
    named = (line.entry.get("voice_note") for line in lines if line.entry.get("kind") == "handover-offered")
    return list(dict.fromkeys(name for name in named if isinstance(name, str) and len(name) == 64))
