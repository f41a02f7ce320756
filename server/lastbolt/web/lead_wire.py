"""What goes over the wire for the lead's desk: findings with their photo pairs, and the trays."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from pydantic import Field

from .wire import Finding, Photo, Pieces, Wire

Grade = Literal[0, 1, 2, 3]
"""Evidence: 0 none, 1 tapped, 2 with a photo or a scan, 3 a second person saw it (practice 4.1)."""


class Pin(Wire):
    """A place marked on a photo: x and y are shares of its width and height."""

    element: str
    hole: int | None
    x: float
    y: float


class Shot(Wire):
    """A photo and the places marked on it."""

    photo: Photo
    pins: list[Pin]


class LookedAt(Wire):
    """Who looked at a pair, and when."""

    by: str
    at: datetime


class Pair(Wire):
    """The same thing before the work and after it; `after` is null while that photo is owed."""

    element: str
    before: Shot | None
    after: Shot | None
    score: float = Field(description="sorts where to look first; it passes and grades nothing")
    why: list[str]
    seen: LookedAt | None


class SentBack(Wire):
    """To whom a finding was sent back, with what words."""

    to: str | None
    reason: str | None
    by: str
    at: datetime


class DeskFinding(Wire):
    """A finding with the photo pair of its subject, the grade of each entry, and whom it was sent back to."""

    finding: Finding
    grades: list[Grade] = Field(description="one for each entry of the finding")
    pair: Pair | None
    on_map: bool = Field(description="whether a way back to its subject can be asked for")
    sent_back: SentBack | None


class Named(Wire):
    """Somebody who can be named: who worked here or was described."""

    name: str
    roles: list[str]


class DeskList(Wire):
    """What the lead goes through: the findings worst first, and the pairs where to look first first."""

    findings: list[DeskFinding]
    pairs: list[Pair]
    people: list[Named]


class Mark(Wire):
    """Where the reader, or a person correcting it, saw a part: shares of the photo's width and height."""

    x: float
    y: float
    by: Literal["reader", "person", "struck"]
    outline: list[tuple[float, float]] = Field(
        default_factory=list, description="the part's outline where the reader kept one"
    )


class Tray(Wire):
    """A bag or tray at the review: what lies in it, who counted, its last photo."""

    container: str
    label: str | None
    kind: str
    place: str | None
    contents: list[Pieces]
    record: int = Field(description="pieces in it by the record")
    picture: str | None = Field(description="what the reader counted: an estimate")
    picture_at: datetime | None = Field(description="when that picture was counted")
    by_hand: int | None
    counted_by: str | None
    counted_at: datetime | None
    looked_empty: datetime | None
    photo: Photo | None = Field(description="the last one")
    photos: int
    marks: list[Mark] = Field(description="what was seen in that photo")
