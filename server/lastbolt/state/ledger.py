"""The double-entry ledger of fasteners: whatever leaves one account comes into another."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from ..journal.fastener_type import FastenerType

NEW, STORE, SCRAP, SENT_OUT, LOST, UNKNOWN = "NEW", "STORE", "SCRAP", "SENT OUT", "LOST", "?"
VIRTUAL = frozenset({NEW, STORE, SCRAP, SENT_OUT, LOST, UNKNOWN})
HOLE = "HOLE"
"""Where a parked piece goes: its own hole, which is no account."""


def account_named(text: str) -> str:
    """Give the account that a word means; the virtual ones are known in any case.

    >>> account_named("scrap"), account_named("sent_out"), account_named("B1")
    ('SCRAP', 'SENT OUT', 'B1')
    """
    upper = text.strip().upper().replace("_", " ")
    return upper if upper in VIRTUAL or upper == HOLE else text


LENGTH_TOLERANCE_MM = 1.5
"""Washers under the head and measuring error; common practice, no source."""
MEASURE_TOLERANCE_MM = 0.05


class Lot(NamedTuple):
    """Pieces that are alike: of which set, of which type as written, new or used."""

    set: str | None
    type: str
    new: bool


@dataclass(slots=True)
class Ledger:
    """Accounts (containers and virtual ones) with their lots; balances never go below zero here.

    What an entry wants to take beyond what is there is the caller's to report as more than logged.
    """

    accounts: dict[str, dict[Lot, int]] = field(default_factory=dict)
    types: dict[str, FastenerType] = field(default_factory=dict)
    _names: dict[int, tuple[FastenerType, str]] = field(default_factory=dict)

    def put(self, account: str, lot: Lot, n: int) -> None:
        """Add n pieces."""
        if n > 0:
            lots = self.accounts.setdefault(account, {})
            lots[lot] = lots.get(lot, 0) + n

    def take(self, account: str, lot: Lot, n: int) -> int:
        """Take up to n pieces of one lot; give how many were there."""
        lots = self.accounts.get(account, {})
        taken = min(n, lots.get(lot, 0))
        if taken:
            lots[lot] -= taken
            if not lots[lot]:
                del lots[lot]
        return taken

    def lots(self, account: str) -> dict[Lot, int]:
        """Give what lies in an account."""
        return self.accounts.get(account, {})

    def balance(self, account: str, of_set: str | None = None) -> int:
        """Count the pieces in an account, of one set or of all."""
        lots = self.lots(account)
        return sum(n for lot, n in lots.items() if of_set is None or lot.set == of_set)

    def written(self, kind: FastenerType | None) -> str:
        """Give the short form of a type, and remember the type under it; empty for unknown."""
        if kind is None:
            return ""
        known = self._names.get(id(kind))
        if known is None:
            known = self._names[id(kind)] = (kind, str(kind))
            self.types.setdefault(known[1], kind)
        return known[1]


def is_alike(wanted: FastenerType, found: FastenerType) -> bool:
    """Tell whether a piece is the one wanted: kind, thread, length and class, as far as both are known.

    >>> is_alike(FastenerType(diameter_mm=10, length_mm=40), FastenerType(diameter_mm=10, length_mm=30))
    False
    >>> is_alike(FastenerType(diameter_mm=10, length_mm=40), FastenerType(diameter_mm=10, length_mm=41))
    True
    """
    if wanted is found:
        return True
    if wanted.kind != found.kind:
        return False
    pairs = (
        (wanted.diameter_mm, found.diameter_mm, MEASURE_TOLERANCE_MM),
        (wanted.pitch_mm, found.pitch_mm, MEASURE_TOLERANCE_MM),
        (wanted.length_mm, found.length_mm, LENGTH_TOLERANCE_MM),
    )
    if any(a is not None and b is not None and abs(a - b) > tolerance for a, b, tolerance in pairs):
        return False
    words = ((wanted.strength_class, found.strength_class), (wanted.part_number, found.part_number))
    return all(a is None or b is None or a == b for a, b in words)
