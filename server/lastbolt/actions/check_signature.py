"""Check an Ed25519 signature with nothing but Python itself, as RFC 8032, section 5.1, describes it.

Goes along with an exported job, beside `check_bundle.py`. It only checks; it never signs, so that it does not
matter how long a step takes. Slow, a few milliseconds a signature, and meant to be read.
"""

from __future__ import annotations

import hashlib

PRIME = 2**255 - 19
ORDER = 2**252 + 27742317777372353535851937790883648493
CURVE = -121665 * pow(121666, PRIME - 2, PRIME) % PRIME
ROOT = pow(2, (PRIME - 1) // 4, PRIME)
"""A square root of -1 modulo the prime."""

Point = tuple[int, int, int, int]
"""X, Y, Z, T with x = X/Z, y = Y/Z and x*y = T/Z."""


def add(one: Point, two: Point) -> Point:
    """Add two points (section 5.1.4)."""
    a = (one[1] - one[0]) * (two[1] - two[0]) % PRIME
    b = (one[1] + one[0]) * (two[1] + two[0]) % PRIME
    c = 2 * one[3] * two[3] * CURVE % PRIME
    d = 2 * one[2] * two[2] % PRIME
    e, f, g, h = b - a, d - c, d + c, b + a
    return e * f % PRIME, g * h % PRIME, f * g % PRIME, e * h % PRIME


def times(factor: int, point: Point) -> Point:
    """Add a point to itself so many times."""
    total: Point = (0, 1, 1, 0)
    while factor:
        if factor & 1:
            total = add(total, point)
        point = add(point, point)
        factor >>= 1
    return total


def is_same(one: Point, two: Point) -> bool:
    """Tell whether two points are one."""
    return (one[0] * two[2] - two[0] * one[2]) % PRIME == 0 and (
        one[1] * two[2] - two[1] * one[2]
    ) % PRIME == 0


def x_of(y: int, sign: int) -> int | None:
    """Give the x of a point from its y and the lowest bit of x; None where there is no such point (5.1.3)."""
    if y >= PRIME:
        return None
    square = (y * y - 1) * pow(CURVE * y * y + 1, PRIME - 2, PRIME) % PRIME
    if square == 0:
        return None if sign else 0
    x = pow(square, (PRIME + 3) // 8, PRIME)
    if (x * x - square) % PRIME:
        x = x * ROOT % PRIME
    if (x * x - square) % PRIME:
        return None
    return PRIME - x if x & 1 != sign else x


def point_from(data: bytes) -> Point | None:
    """Read a point from 32 bytes; None where they are none."""
    number = int.from_bytes(data, "little")
    y, sign = number & ((1 << 255) - 1), number >> 255
    x = x_of(y, sign)
    return None if x is None else (x, y, 1, x * y % PRIME)


BASE_Y = 4 * pow(5, PRIME - 2, PRIME) % PRIME
BASE_X = x_of(BASE_Y, 0) or 0
BASE: Point = (BASE_X, BASE_Y, 1, BASE_X * BASE_Y % PRIME)


def is_signed(public: str, message: bytes, signature: str) -> bool:
    """Tell whether a signature over a message is that of a public key, both as lower-case hex digits."""
    try:
        key, signed = bytes.fromhex(public), bytes.fromhex(signature)
    except (ValueError, TypeError):
        return False
    if len(key) != 32 or len(signed) != 64 or (key.hex(), signed.hex()) != (public, signature):
        return False
    who, promise = point_from(key), point_from(signed[:32])
    answer = int.from_bytes(signed[32:], "little")
    if who is None or promise is None or answer >= ORDER:
        return False
    asked = int.from_bytes(hashlib.sha512(signed[:32] + key + message).digest(), "little") % ORDER
    return is_same(times(answer, BASE), add(promise, times(asked, who)))
