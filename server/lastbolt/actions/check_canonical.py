"""JSON in the form of RFC 8785 with nothing but Python itself; goes along beside `check_bundle.py`."""

from __future__ import annotations

import json
from typing import Any

LARGEST_WHOLE = 2**53 - 1


def canonical(value: Any) -> str:
    """Write a JSON value in the form of RFC 8785: keys by UTF-16 units, numbers as ECMAScript does."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        value.encode("utf-8")
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, int):
        if abs(value) > LARGEST_WHOLE:
            raise ValueError("a whole number above 2^53 has no exact form")
        return str(value)
    if isinstance(value, float):
        return number_text(value)
    if isinstance(value, list):
        return "[" + ",".join(canonical(inner) for inner in value) + "]"
    if isinstance(value, dict):
        keys = sorted(value, key=lambda key: key.encode("utf-16-be"))
        return "{" + ",".join(f"{canonical(key)}:{canonical(value[key])}" for key in keys) + "}"
    raise ValueError(f"{type(value).__name__} is nothing that JSON knows")


def number_text(number: float) -> str:
    """Write a double as ECMAScript does: its shortest digits, a power from 1e21 up and below 1e-6."""
    if number != number or number in (float("inf"), float("-inf")):
        raise ValueError("a number without an end has no exact form")
    if number == 0:
        return "0"
    sign = "-" if number < 0 else ""
    mantissa, _, power = repr(abs(number)).partition("e")
    whole, _, part = mantissa.partition(".")
    digits = (whole + part).lstrip("0")
    point = len(whole) + int(power or 0) - (len(whole + part) - len(digits))
    digits = digits.rstrip("0")
    if len(digits) <= point <= 21:
        return sign + digits + "0" * (point - len(digits))
    if 0 < point <= 21:
        return f"{sign}{digits[:point]}.{digits[point:]}"
    if -6 < point <= 0:
        return f"{sign}0.{'0' * -point}{digits}"
    tail = f".{digits[1:]}" if len(digits) > 1 else ""
    return f"{sign}{digits[0]}{tail}e{'+' if point > 0 else '-'}{abs(point - 1)}"
