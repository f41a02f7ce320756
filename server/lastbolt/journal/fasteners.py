"""Entries about sets of fasteners: what they are, out, in, tight, lost and found."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from .envelope import AngleDeg, Envelope, HoleNumber, Holes, LengthMm, Name, Some, TorqueNm, Words
from .fastener_type import Typed

Defect = Literal["missing", "loose", "broken", "stripped", "wrong", "corroded"]
LockingKind = Literal["split-pin", "wire", "tab", "locknut", "thread-locker", "own", "other"]
Pieces = Annotated[int, Field(ge=1, le=500)]


class SetDescribed(Envelope):
    """What a set is: n alike that hold one part; types, if they differ from hole to hole."""

    kind: Literal["set-described"]
    set: Name
    n: Some
    type: Typed | None = None
    types: dict[HoleNumber, Typed] = Field(
        default_factory=dict, description="hole number -> type wanted there"
    )
    part: Name | None = Field(default=None, description="the part it holds")
    critical: bool = False
    single_use: bool = False
    reuses_allowed: Annotated[int, Field(ge=0, le=100)] = 0
    locking: LockingKind | None = None
    gasketed: bool = Field(default=False, description="a joint with a seal: undoing one undoes all")
    each_alone: bool = Field(default=False, description="undoing one leaves the others valid")
    captive: bool = Field(default=False, description="stays in the part: released and shut, never bagged")
    loosened_only: bool = Field(default=False, description="slackened in place, never taken out")
    photo_wanted: bool = False
    second_person: bool = False
    left_floating: bool = Field(default=False, description="a tensioner that is meant to stay free")
    witness_wanted: bool = Field(default=False, description="a paint stripe is wanted across head and part")
    unit: Name | None = Field(default=None, description="the redundant unit it belongs to")
    minutes: Annotated[float, Field(ge=0, le=10_000)] | None = None
    reason: Words | None = None


class FastenersRemoved(Envelope):
    """n came out of their holes and went into a container; `bagged` says how many really lie in it."""

    kind: Literal["fasteners-removed"]
    set: Name
    n: Some | None = None
    holes: Holes = ()
    bagged: Annotated[int, Field(ge=0, le=500)] | None = None
    to: Name | None = Field(
        default=None, description="container; null with `parked` or when nobody said where"
    )
    parked: bool = Field(default=False, description="put back in its own hole only to keep it")
    type: Typed | None = None


class FastenersLoosened(Envelope):
    """Slackened in place; the tightening before it is void."""

    kind: Literal["fasteners-loosened"]
    set: Name
    holes: Holes = ()
    n: Some | None = None
    turns: Annotated[float, Field(ge=0, le=100)] | None = None


class FastenersRetightened(Envelope):
    """What was loosened in place is tight again, by feel or to a value."""

    kind: Literal["fasteners-retightened"]
    set: Name
    holes: Holes = ()
    n: Some | None = None
    value_nm: TorqueNm | None = None
    wrench: Name | None = None


class FastenersFoundBad(Envelope):
    """As found: the hole was empty, the stud broken, the bolt the wrong one, loose."""

    kind: Literal["fasteners-found-bad"]
    set: Name
    holes: Holes = ()
    defect: Defect
    cause: Words | None = Field(default=None, description="why it was loose; owed for 'loose'")


class CaptiveReleased(Envelope):
    """Quarter-turns, latches, captive screws opened."""

    kind: Literal["captive-released"]
    set: Name
    points: Some | None = None


class CaptiveShut(Envelope):
    """Latched again: how many points, seen latched and not merely closed."""

    kind: Literal["captive-shut"]
    set: Name
    points: Some | None = None


class FastenersMoved(Envelope):
    """Pieces go from one account to another: bag, hand, NEW, STORE, SCRAP, SENT OUT."""

    kind: Literal["fasteners-moved"]
    set: Name | None = None
    n: Some
    source: Name
    to: Name
    type: Typed | None = None


class ThingLost(Envelope):
    """Something is missing: what, how many, when last seen, where."""

    kind: Literal["thing-lost"]
    loss: Name
    what: Words
    n: Pieces = 1
    set: Name | None = None
    type: Typed | None = None
    last_seen: AwareDatetime | None = None
    source: Name | None = Field(
        default=None, description="the account it is missing from; null: not counted in"
    )
    opening: Name | None = Field(default=None, description="it fell into or beside this opening")


class ThingFound(Envelope):
    """Something turned up; only the same type closes a loss."""

    kind: Literal["thing-found"]
    find: Name
    what: Words | None = None
    n: Pieces = 1
    matches: Name | None = Field(default=None, description="the loss that it is said to close")
    type: Typed | None = None
    set: Name | None = None
    to: Name | None = None
    where: Words | None = None


class FastenerMeasured(Envelope):
    """A lone piece was measured; pitch only from a gauge or a known nut."""

    kind: Literal["fastener-measured"]
    what: Name
    diameter_mm: LengthMm | None = None
    length_mm: LengthMm | None = None
    pitch_mm: LengthMm | None = None
    head_mm: LengthMm | None = None
    how: Literal["caliper", "gauge", "photo"] = "caliper"


class FastenerIdentified(Envelope):
    """A found piece belongs to this set."""

    kind: Literal["fastener-identified"]
    find: Name
    set: Name | None = None
    to: Name | None = None
    not_ours: bool = Field(default=False, description="not of this machine: old sweepings")


class LossWrittenOff(Envelope):
    """The search is over: what was done, and who else agreed."""

    kind: Literal["loss-written-off"]
    loss: Name
    searched: tuple[Words, ...] = ()
    reason: Words
    second: Name | None = None


class FastenersFitted(Envelope):
    """Pieces went from a container into their holes, by hand."""

    kind: Literal["fasteners-fitted"]
    set: Name
    n: Some | None = None
    holes: Holes = ()
    source: Name | None = None
    type: Typed | None = None
    new: bool = False
    tight: bool = Field(default=True, description="tight by hand tool, where the set has no value")


class FastenersTightened(Envelope):
    """A torque or angle was pulled: which holes in which order, which stage, with which wrench."""

    kind: Literal["fasteners-tightened"]
    set: Name
    holes: Holes = Field(default=(), description="in the order done; empty: all of them, order not said")
    stage: Annotated[int, Field(ge=1, le=12)] | None = Field(default=None, description="null: the last stage")
    value_nm: TorqueNm | None = None
    angle_deg: AngleDeg | None = None
    as_written: Name | None = Field(default=None, description="the value as typed, with its unit")
    wrench: Name | None = None
    method: Literal["click", "dial", "angle", "feel", "by-design"] = "click"
    adapter_length_mm: Annotated[float, Field(ge=-2000, le=2000)] | None = None
    one_turn: bool = False
    condition_met: bool = Field(default=True, description="hot, at ride height, with load: as the spec asks")
    reached: bool = Field(default=False, description="reached through an opening though a part lies over it")
    moved: bool = Field(default=False, description="a check that made it turn: it was not tight")


class LockingFitted(Envelope):
    """Split pin, wire, tab or thread-locker put on."""

    kind: Literal["locking-fitted"]
    set: Name
    n: Some
    locking: LockingKind
    holes: Holes = ()


class WitnessMarked(Envelope):
    """Paint stripe across head and part."""

    kind: Literal["witness-marked"]
    set: Name
    n: Some
    colour: Name | None = None
