"""What a photo's file is called."""

from __future__ import annotations

from ..errors import NotFoundError


def photo_name(sha256: str) -> str:
    """Give the SHA-256 that names a photo, once it is one: no other text becomes part of a path.

    Raises:
        NotFoundError: it is no SHA-256, so no photo is called that.
    """
    if len(sha256) != 64 or set(sha256) - set("0123456789abcdef"):
        raise NotFoundError("a photo is named by 64 hexadecimal digits, its SHA-256")
    return sha256
