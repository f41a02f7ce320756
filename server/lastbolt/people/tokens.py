"""Random secrets that a machine remembers: a device's token, the code for the first lead."""

from __future__ import annotations

import hashlib
import secrets

CODE_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without 0, 1, I and O, which are read wrong."""
CODE_LENGTH = 10


def new_token() -> str:
    """Make a device's token: 256 random bits, as text for a cookie."""
    return secrets.token_urlsafe(32)


def new_code() -> str:
    """Make a code to be typed once: 50 random bits, in two groups."""
    letters = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
    return f"{letters[:5]}-{letters[5:]}"


def new_device() -> str:
    """Name a device that has none: `phone` and 48 random bits."""
    return f"phone {secrets.token_hex(6)}"


def kept(token: str) -> str:
    """Give what is kept of a token or code: its SHA-256, for it has too many bits to be guessed."""
    return hashlib.sha256(token.encode()).hexdigest()


def plain_code(typed: str) -> str:
    """Read a code as somebody typed it: spaces, case and the dash do not matter.

    >>> plain_code("k7qf2 mxp4r")
    'K7QF2-MXP4R'
    """
    letters = "".join(each for each in typed.upper() if each in CODE_LETTERS)
    return f"{letters[:5]}-{letters[5:]}"
