"""Short forms run with every test; `make faults` sets LASTBOLT_FAULTS=long."""

from __future__ import annotations

import os

IS_LONG = os.environ.get("LASTBOLT_FAULTS") == "long"


def short_or_long(short: int, long: int) -> int:
    return long if IS_LONG else short


def figures(name: str, **numbers: float | int | str) -> None:
    """Print what a run did; `make faults` shows it."""
    print(f"\n{name}: " + ", ".join(f"{value} {what.replace('_', ' ')}" for what, value in numbers.items()))
