"""PINs and passphrases: what may be one, and how it is kept (Argon2id, RFC 9106)."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from threading import Semaphore

from argon2 import PasswordHasher, Type
from argon2.exceptions import Argon2Error, InvalidHashError

from ..errors import BadInputError
from ..said import said

LEAST_DIGITS, MOST_DIGITS = 4, 8
LEAST_LETTERS, MOST_LETTERS = 10, 200
AT_ONCE = 2
"""So many are worked out side by side; more would let a crowd of guesses fill the memory."""


@dataclass(frozen=True, slots=True)
class Hashing:
    """How dear one try is: `rounds` over `memory_kib` in `lanes`.

    OWASP's password storage advice asks for 1 round over 46 MiB or 2 over 19 MiB at the least; 2 over 46 MiB
    stay below 150 ms on one core of a small server, the longest that somebody with gloves should wait. The
    second choice of RFC 9106, section 4 (3 over 64 MiB in 4 lanes), takes 1.7 times as much work. The tests
    print both.
    """

    rounds: int = 2
    memory_kib: int = 47104
    lanes: int = 1
    _turn: Semaphore = field(default_factory=lambda: Semaphore(AT_ONCE), compare=False, repr=False)

    def hashed(self, secret: str) -> str:
        """Give what is kept of a secret: Argon2id in its encoded form, with a salt of its own."""
        with self._turn:
            return self._hasher().hash(secret)

    def fits(self, secret: str, kept: str) -> bool:
        """Tell whether a secret is the one that was kept; takes as long either way."""
        with self._turn:
            try:
                return self._hasher().verify(kept, secret)
            except (Argon2Error, InvalidHashError):
                return False

    def _hasher(self) -> PasswordHasher:
        return PasswordHasher(self.rounds, self.memory_kib, self.lanes, type=Type.ID)


def sound(secret: str) -> str:
    """Give a PIN or passphrase that may be used, or say what is wrong with it.

    Raises:
        BadInputError: too short, too long, or one of those that are guessed first.
    """
    if not secret.isdecimal():
        if not LEAST_LETTERS <= len(secret) <= MOST_LETTERS:
            raise BadInputError(
                said(
                    "give a PIN of {least} to {most} digits or a passphrase of at least {letters} characters",
                    least=LEAST_DIGITS,
                    most=MOST_DIGITS,
                    letters=LEAST_LETTERS,
                )
            )
        return secret
    if not (secret.isascii() and LEAST_DIGITS <= len(secret) <= MOST_DIGITS):
        raise BadInputError(said("a PIN has {least} to {most} digits", least=LEAST_DIGITS, most=MOST_DIGITS))
    if is_guessed_first(secret):
        raise BadInputError("that PIN is one of the first that anybody tries; take another")
    return secret


def is_guessed_first(pin: str) -> bool:
    """Tell whether digits repeat, run up or down, or are a year of the last and this century.

    >>> [is_guessed_first(pin) for pin in ("1111", "1234", "9876", "1212", "1984", "3141")]
    [True, True, True, True, True, False]
    """
    steps = {(int(b) - int(a)) % 10 for a, b in pairwise(pin)}
    is_run = len(steps) == 1 and steps <= {0, 1, 9}
    half = len(pin) // 2
    return is_run or pin[:half] * 2 == pin or (len(pin) == 4 and pin[:2] in ("19", "20"))
