"""Entries about parts, connections, openings, items, isolations, fluids, renewals and settings."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from .envelope import Count, Envelope, Level, Litres, Name, Some, Words

OpeningClass = Literal["A", "B", "C"]
Minutes = Annotated[float, Field(ge=0, le=10_000)]


class PartDescribed(Envelope):
    """A cover or bracket, and the minutes to take it off and put it back."""

    kind: Literal["part-described"]
    part: Name
    minutes: Minutes | None = None
    photo_wanted: bool = False
    zone_name: Name | None = None
    unit: Name | None = None


class PartRemoved(Envelope):
    """Taken off, and where it lies."""

    kind: Literal["part-removed"]
    part: Name
    place: Name | None = None


class PartFitted(Envelope):
    """Put on."""

    kind: Literal["part-fitted"]
    part: Name
    orientation_seen: bool = False
    replaced_by: Name | None = None


class AccessSaid(Envelope):
    """`part` hides `element`: it must have reached `need` before the part goes on."""

    kind: Literal["access-said"]
    part: Name
    element: Name
    need: Level = "final"
    route: Name | None = Field(default=None, description="ways in; hidden only when every route is shut")
    strength: Annotated[int, Field(ge=0, le=3)] = Field(
        default=3, description="3 said at the machine, 2 from a checked plan, 1 a photo pair, 0 guessed"
    )
    shape_only: bool = Field(
        default=False, description="not hidden: `element` must be on before `part` for its shape"
    )


class ConnectionDescribed(Envelope):
    """A plug, hose, pipe, cable or tie."""

    kind: Literal["connection-described"]
    connection: Name
    part: Name | None = Field(default=None, description="must be apart before this part comes off")
    has_clamp: bool = False
    photo_wanted: bool = False
    critical: bool = False


class ConnectionParted(Envelope):
    """A plug, hose or cable taken apart; its ends and mark."""

    kind: Literal["connection-parted"]
    connection: Name
    ends: tuple[Name, ...] = ()
    mark: Name | None = None


class ConnectionMade(Envelope):
    """Together again: pulled to try it, clamp tight."""

    kind: Literal["connection-made"]
    connection: Name
    pulled: bool = True
    clamp_tight: bool = True


class OpeningDescribed(Envelope):
    """A mouth into a place where a stranger does harm; class A worst."""

    kind: Literal["opening-described"]
    opening: Name
    opening_class: OpeningClass = "A"
    mouths: Some = 1
    clean_first: bool = Field(default=False, description="dirt around it: clean before opening")
    always_open: bool = Field(
        default=False, description="open in use (probe, port, breather): covered for the work, never opened"
    )
    zone_name: Name | None = None
    photo_wanted: bool = False


class OpeningOpened(Envelope):
    """It is open now."""

    kind: Literal["opening-opened"]
    opening: Name
    mouths: Some | None = None
    by_taking_off: Name | None = None


class Cleaned(Envelope):
    """Cleaned around an opening or a zone."""

    kind: Literal["cleaned"]
    opening: Name
    how: Literal["air", "vacuum", "wash", "wipe", "tape"] | None = None


class OpeningCovered(Envelope):
    """Covers, plugs or tape put on; `n` mouths, all if not said."""

    kind: Literal["opening-covered"]
    opening: Name
    n: Some | None = None
    covers: tuple[Name, ...] = Field(default=(), description="numbered covers")


class OpeningUncovered(Envelope):
    """Covers taken off; `n`, all if not said."""

    kind: Literal["opening-uncovered"]
    opening: Name
    n: Some | None = None
    covers: tuple[Name, ...] = ()


class LookedInside(Envelope):
    """Somebody looked in before closing."""

    kind: Literal["looked-inside"]
    opening: Name
    clear: bool = True
    how: Literal["eye", "mirror", "scope", "magnet"] = "eye"


class OpeningClosed(Envelope):
    """It is shut."""

    kind: Literal["opening-closed"]
    opening: Name


class ItemBroughtIn(Envelope):
    """A rag, lamp, peg or tool goes in."""

    kind: Literal["item-brought-in"]
    item: Name
    n: Some = 1
    opening: Name | None = None
    must_be_out_before_turning: bool = True


class ItemTakenOut(Envelope):
    """It comes out again."""

    kind: Literal["item-taken-out"]
    item: Name
    n: Some = 1
    opening: Name | None = None


class KitCounted(Envelope):
    """A tool kit was counted: whole, or what is missing."""

    kind: Literal["kit-counted"]
    kit: Name
    complete: bool
    missing: tuple[Name, ...] = ()


class IsolationDescribed(Envelope):
    """Where energy is cut off, and what lies within its reach."""

    kind: Literal["isolation-described"]
    isolation: Name
    high_energy: bool = False
    scope: tuple[Name, ...] = Field(
        default=(), description="elements in its reach; empty: all of the machine"
    )


class IsolationApplied(Envelope):
    """Cut off, locked and tagged by the person who hangs the tag."""

    kind: Literal["isolation-applied"]
    isolation: Name
    tag: Name | None = None
    high_energy: bool | None = None


class IsolationProven(Envelope):
    """Tried and found dead."""

    kind: Literal["isolation-proven"]
    isolation: Name
    how: Words | None = None
    value: Words | None = None


class IsolationTransferred(Envelope):
    """The tag is now somebody else's."""

    kind: Literal["isolation-transferred"]
    isolation: Name
    to: Name


class IsolationCleared(Envelope):
    """People and things are out of the reach of it."""

    kind: Literal["isolation-cleared"]
    isolation: Name


class IsolationRemoved(Envelope):
    """The tag is off, energy is back."""

    kind: Literal["isolation-removed"]
    isolation: Name


class FluidDescribed(Envelope):
    """A fluid of the machine: its capacity and grade."""

    kind: Literal["fluid-described"]
    fluid: Name
    capacity_l: Litres | None = None
    grade: Name | None = None


class FluidDrained(Envelope):
    """Out: DO NOT START from here on."""

    kind: Literal["fluid-drained"]
    fluid: Name
    litres: Litres


class FluidFilled(Envelope):
    """In again."""

    kind: Literal["fluid-filled"]
    fluid: Name
    litres: Litres
    grade: Name | None = None
    lot: Name | None = None


class FluidChecked(Envelope):
    """Level, bleeding, leaks looked at after the last fill."""

    kind: Literal["fluid-checked"]
    fluid: Name
    level_right: bool = True
    bled: bool | None = None
    leaks: bool = False
    when: Literal["cold", "after-run"] | None = None


class RenewalNeeded(Envelope):
    """A seal, split pin or filter that must be new."""

    kind: Literal["renewal-needed"]
    renewal: Name
    n: Some = 1
    under: Name | None = Field(default=None, description="the part that goes on over it")
    set: Name | None = Field(default=None, description="the set it belongs to: split pins, lock nuts")
    see_old_off: bool = False
    reuse_allowed: bool = False
    part_number: Name | None = None
    lot: Name | None = None


class RenewalSeenOff(Envelope):
    """The old one was seen off: the bare face."""

    kind: Literal["renewal-seen-off"]
    renewal: Name
    n: Some = 1


class RenewalFitted(Envelope):
    """A new one is on."""

    kind: Literal["renewal-fitted"]
    renewal: Name
    n: Some = 1
    part_number: Name | None = None
    lot: Name | None = None


class CompoundApplied(Envelope):
    """Sealant or thread-locker put on."""

    kind: Literal["compound-applied"]
    element: Name
    product: Name
    cure_minutes: Count | None = None


class SettingDescribed(Envelope):
    """A value that the work may move."""

    kind: Literal["setting-described"]
    setting: Name
    unit: Name | None = None
    tolerance: Annotated[float, Field(ge=0, le=10_000)] = 0


class SettingFound(Envelope):
    """The value before anybody touched it."""

    kind: Literal["setting-found"]
    setting: Name
    value: float
    unit: Name | None = None
    how: Words | None = None


class SettingSet(Envelope):
    """The value as left; `manual_page` when it is the maker's value and not the one found."""

    kind: Literal["setting-set"]
    setting: Name
    value: float
    unit: Name | None = None
    manual_page: Name | None = None
