"""The things of a machine and a shop as the fold knows them: parts, openings, items, containers and more."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from ..journal.evidence import ContainerKind
from ..journal.machine import (
    AccessSaid,
    ConnectionDescribed,
    FluidDescribed,
    IsolationDescribed,
    OpeningDescribed,
    PartDescribed,
    RenewalNeeded,
    SettingDescribed,
)
from ..journal.specification import WrenchDescribed
from .fastener_set import Act
from .reading import Reading


@dataclass(slots=True)
class Part:
    """A cover or bracket."""

    name: str
    described: PartDescribed | None = None
    on: bool = True
    off_at: Act | None = None
    on_at: Act | None = None
    place: str | None = None


@dataclass(slots=True)
class Connection:
    """A plug, hose, pipe or cable."""

    name: str
    described: ConnectionDescribed | None = None
    apart: Act | None = None
    made: Act | None = None
    unsure: Act | None = None


@dataclass(slots=True)
class Opening:
    """A mouth or several into a place where strangers do harm; `covers` counts those on it."""

    name: str
    described: OpeningDescribed | None = None
    mouths: int = 1
    open_since: Act | None = None
    taken_off_with: str | None = None
    covers: int = 0
    numbered: set[str] = field(default_factory=set)
    cover_act: Act | None = None
    uncovered: Act | None = None
    looked: Act | None = None
    closed: Act | None = None
    closed_unseen: Act | None = None
    cleaned: Act | None = None
    opened_dirty: Act | None = None
    bare: list[tuple[datetime, datetime | None]] = field(default_factory=list)
    unattended: Act | None = None

    @property
    def letter(self) -> str:
        """Give the class: A worst, then B and C."""
        return self.described.opening_class if self.described else "A"

    @property
    def is_bare(self) -> bool:
        """Tell whether a mouth is open with nothing on it."""
        return self.open_since is not None and self.covers < self.mouths


@dataclass(slots=True)
class Item:
    """A rag, lamp or peg brought in, by opening or for the machine at large."""

    name: str
    opening: str | None
    n: int = 0
    act: Act | None = None


@dataclass(slots=True)
class Isolation:
    """Where energy is cut off; `others` hung a tag of their own on it beside the holder."""

    name: str
    described: IsolationDescribed | None = None
    applied: Act | None = None
    holder: str | None = None
    others: dict[str, Act] = field(default_factory=dict)
    proven: Act | None = None
    removed: Act | None = None
    lifted_by_other: Act | None = None
    lifted_over: tuple[Act, str] | None = None
    worked_live: Act | None = None
    high_energy: bool = False


LEAST_SHARE = 0.9
"""Of a drained fluid, what must be back (practice C35)."""


@dataclass(slots=True)
class Fluid:
    """Litres out and in, and the last look at the level.

    `short_l` is what is missing in the machine now: never more than it holds. `mixed_l` is what of it was
    filled here, `mixed_most_l` the most that was since a wrong grade came in.
    """

    name: str
    described: FluidDescribed | None = None
    drained_l: float = 0.0
    filled_l: float = 0.0
    short_l: float = 0.0
    mixed_l: float = 0.0
    mixed_most_l: float = 0.0
    drained: Act | None = None
    filled: Act | None = None
    checked: Act | None = None
    check_bad: Act | None = None
    wrong_grade: Act | None = None

    @property
    def owed_l(self) -> float:
        """Give the litres that must go in: what went out, or the capacity if that is less."""
        capacity = self.described.capacity_l if self.described else None
        return min(self.drained_l, capacity) if capacity else self.drained_l

    @property
    def is_back(self) -> bool:
        """Tell whether nine tenths of what is owed went in, if anything was ever filled."""
        return self.filled is not None and self.short_l <= (1 - LEAST_SHARE) * self.owed_l + 1e-9

    @property
    def is_unchecked(self) -> bool:
        """Tell whether nobody has found level, bleeding and leaks right since the last fill."""
        if self.filled is None or self.checked is None or self.check_bad is not None:
            return True
        return self.checked.when < self.filled.when


@dataclass(slots=True)
class Renewal:
    """A seal or other piece that must be new."""

    name: str
    needed: RenewalNeeded | None = None
    seen_off: int = 0
    fitted: int = 0
    spent: Act | None = None
    last: Act | None = None
    covered: Act | None = None


@dataclass(slots=True)
class Setting:
    """A value as found and as left."""

    name: str
    described: SettingDescribed | None = None
    found: tuple[Act, float] | None = None
    left: tuple[Act, float] | None = None
    manual_page: str | None = None

    def differs(self, one: float, other: float) -> bool:
        """Tell whether two values lie further apart than the tolerance that was described."""
        return abs(one - other) > (self.described.tolerance if self.described else 0.0) + 1e-9


@dataclass(slots=True)
class Container:
    """A tray, bag or place; what lies in it is in the ledger.

    `logged` holds the ledger's number at each photo of it; `settled` names the photos before a hand count.
    `counted` is the hand count that stands: who, how many, how many by the ledger; of `counted_set` alone
    if one is named.
    """

    name: str
    kind: ContainerKind = "tray"
    shared: bool = False
    used: bool = False
    held_new: bool = False
    scanned: Act | None = None
    last: Act | None = None
    place: str | None = None
    counted: tuple[Act, int, int] | None = None
    counted_set: str | None = None
    counted_empty: bool = False
    picture: tuple[Act, int, int, float] | None = None
    reading: Reading | None = None
    logged: dict[str, int] = field(default_factory=dict)
    settled: set[str] = field(default_factory=set)
    unseen_at_handover: Act | None = None
    first: Act | None = None
    look_alikes: tuple[Act, str, str] | None = None
    emptied: Act | None = None
    sets_seen: set[str] = field(default_factory=set)
    photos: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Wrench:
    """A torque wrench: range, calibration and doubts.

    `passes` says from when each passed calibration counts and until when, `doubts` since when each doubt
    reaches back; `told_due` is the due date on its card. The others say how it stands now.
    """

    name: str
    described: WrenchDescribed | None = None
    due: datetime | None = None
    good_since: datetime | None = None
    suspect_since: datetime | None = None
    suspect: Act | None = None
    told_due: datetime | None = None
    passes: list[tuple[datetime, datetime | None]] = field(default_factory=list)
    doubts: list[tuple[datetime, Act]] = field(default_factory=list)
    uses: int = 0


@dataclass(slots=True)
class Hold:
    """A hold point before a part goes on or a test is run."""

    name: str
    before: str
    witness_only: bool = False
    role_wanted: str | None = None
    text: str = ""
    released: Act | None = None
    passed: Act | None = None


@dataclass(slots=True)
class FunctionTest:
    """A function test and its last run."""

    name: str
    scope: tuple[str, ...] = ()
    run: Act | None = None
    passed: bool = False


@dataclass(slots=True)
class Photo:
    """A photo that came in, and whether anything names it."""

    name: str
    act: Act
    linked: bool = False
    rejected: bool = False
    shape: str = "other"


@dataclass(slots=True)
class Device:
    """A phone: what it still holds, how its clock stands."""

    name: str
    unsent: int = 0
    gap: int = 0
    lost: bool = False
    unknown: bool = False
    held: int = 0
    report: Act | None = None
    offset_s: float = 0.0
    order_flips: bool = False
    mark: Act | None = None


@dataclass(slots=True)
class Buried:
    """Something covered before it was ready: by which part, and since when."""

    element: str
    part: str
    act: Act
    edge: AccessSaid
    reached: bool = False
