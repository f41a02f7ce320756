"""Pieces that are missing and pieces that turned up, as the fold knows them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from ..journal.fastener_type import FastenerType
from .fastener_set import Act


@dataclass(slots=True)
class Loss:
    """A piece that is missing; `is_moved` if it was only moved to the lost ones, not declared lost."""

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
