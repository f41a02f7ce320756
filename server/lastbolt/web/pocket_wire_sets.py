"""What goes over the wire about a fastener set in a phone's pocket: holes, value, bags, its way."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from pydantic import Field

from .torque_wire import StageAsked
from .wire import Wire

HoleLevel = Literal["untouched", "empty", "parked", "placed", "snug", "final"]


class Trace(Wire):
    """Who recorded what kind of entry when."""

    entry: str
    kind: str
    by: str
    at: datetime


class PocketHole(Wire):
    """One hole: how far it is, whether slackened, which stage is next, and in words what it owes."""

    hole: int
    level: HoleLevel
    loose: bool = Field(description="slackened in place, or its tightening undone by a neighbour")
    type: str | None = Field(description="what is wanted in it")
    next_stage: int | None
    why: str


class PocketTorque(Wire):
    """The value of a set with where it stands printed."""

    as_written: str
    unit: str
    exact: str
    hand_tight: bool = Field(description="by design no value")
    stages: list[StageAsked] = Field(description="N·m with drag added; each with the wrenches that suit")
    order: list[int] = Field(description="the maker's, else one that is only suggested")
    is_order_suggested: bool
    condition: str
    source: str
    page: str | None
    revision: str | None
    warnings: list[str]
    superseded_by: str


class Lying(Wire):
    """Pieces of a set in a bag or tray, and where that lies."""

    container: str
    place: str | None
    n: int


class LiesOver(Wire):
    """A part that hides the set when it is on; the set must have reached `need` by then."""

    part: str
    need: str
    on: bool
    route: str | None


class PocketSet(Wire):
    """A set of fasteners: what it is, where its pieces are, how far each hole is, what is in its way."""

    set: str
    part: str | None
    n: int
    type: str | None
    critical: bool
    single_use: bool
    captive: bool
    loosened_only: bool
    gasketed: bool
    second_person: bool
    photo_wanted: bool
    locking: str | None
    captive_open: int
    holes: list[PocketHole]
    torque: PocketTorque | None
    lies_in: list[Lying]
    bring: list[str] = Field(description="new pieces that it or its part still waits for")
    first: list[str] = Field(description="what must be on before it: its part, and what goes on before that")
    lies_over: list[LiesOver]
    look_alikes: list[str] = Field(description="sets whose fasteners a hand takes for these")
    left: str = Field(description="in words what it still owes; empty when nothing")
    last: Trace | None
