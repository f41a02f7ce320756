"""Pieces that are missing and pieces that turned up, as the fold knows them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from ..journal.fastener_type import FastenerType
from .fastener_set import Act
from .ledger import Lot


@dataclass(slots=True)
class Loss:
    """Pieces that are missing; `is_moved` if they were only moved to the lost ones, not declared lost.

    `pieces` are those of them that the ledger holds among the lost ones: whichever turns up goes back into
    an account. A washer that nobody ever counted is none of them.
    """

    name: str
    what: str
    n: int
    set: str | None
    type: FastenerType | None
    act: Act
    last_seen: datetime
    opening: str | None = None
    zone: str | None = None
    closed: Act | None = None
    written_off: Act | None = None
    written_off_as: str = ""
    is_moved: bool = False
    second: str | None = None
    pieces: list[Lot] = field(default_factory=list)


@dataclass(slots=True)
class Find:
    """A piece that turned up."""

    name: str
    what: str
    act: Act
    settled: Act | None = None
    type: FastenerType | None = None
    n: int = 1
    closes: str | None = None
    identified: Act | None = None
