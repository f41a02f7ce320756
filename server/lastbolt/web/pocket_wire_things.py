"""What goes over the wire about everything but fastener sets in a phone's pocket."""

from __future__ import annotations

from datetime import datetime

from pydantic import Field

from .pocket_wire_sets import Trace
from .wire import PictureCount, Pieces, Wire


class PocketPart(Wire):
    """A cover or bracket: on or off, where it lies, and what waits under it."""

    part: str
    on: bool
    off: Trace | None
    place: str | None
    zone: str | None
    photo_wanted: bool
    sets: list[str] = Field(description="the sets that hold it")
    bring: list[str] = Field(description="new pieces that it waits for")
    owed: list[str] = Field(description="in words what must come before it goes on")


class PocketConnection(Wire):
    """A plug, hose or cable."""

    connection: str
    part: str | None
    has_clamp: bool
    photo_wanted: bool
    apart: Trace | None
    unsure: bool = Field(description="joined and not pulled or clamped")
    mouths: list[str] = Field(description="openings that are open by its coming apart")


class PocketOpening(Wire):
    """A mouth or several; bare where fewer covers are on than mouths."""

    opening: str
    letter: str
    mouths: int
    open: Trace | None
    covers: int
    numbered: list[str]
    bare: bool
    looked: Trace | None
    taken_off_with: str | None
    clean_first: bool
    items: list[str] = Field(description="what is in it, with how many")


class PocketItem(Wire):
    """Something brought in and not yet out."""

    item: str
    opening: str | None
    n: int
    act: Trace | None


class PocketIsolation(Wire):
    """Where energy is cut off."""

    isolation: str
    applied: Trace | None
    holder: str | None
    proven: Trace | None
    removed: Trace | None
    high_energy: bool
    scope: list[str]


class PocketFluid(Wire):
    """Litres out and in, and the last look."""

    fluid: str
    grade: str | None
    capacity_l: float | None
    drained_l: float
    filled_l: float
    owed_l: float
    drained: Trace | None
    is_back: bool
    checked: Trace | None
    check_bad: bool


class PocketSetting(Wire):
    """A value as found and as left."""

    setting: str
    unit: str | None
    tolerance: float
    found: float | None
    left: float | None


class PocketRenewal(Wire):
    """A seal or other piece that must be new."""

    renewal: str
    n: int
    seen_off: int
    fitted: int
    under: str | None
    set: str | None
    see_old_off: bool
    reuse_allowed: bool


class PocketWrench(Wire):
    """A torque wrench: its range and its last calibration, as far as recorded."""

    wrench: str
    kind: str | None
    min_nm: float | None
    max_nm: float | None
    calibrated: datetime | None
    due: datetime | None
    is_suspect: bool
    uses: int


class PocketContainer(Wire):
    """A bag or tray: its labels by code, what lies in it by the record."""

    container: str
    kind: str
    labels: list[str]
    shown: str | None = Field(description="its living label as printed")
    place: str | None
    shared: bool
    contents: list[Pieces]
    n: int
    looked_empty: datetime | None
    counted: PictureCount | None
    unseen_at_handover: bool
    last: Trace | None


class PocketLoss(Wire):
    """A piece that is missing."""

    loss: str
    what: str
    n: int
    set: str | None
    last_seen: datetime
    opening: str | None
    written_off: bool


class PocketHold(Wire):
    """A hold point before something goes on or is run."""

    hold: str
    before: str
    role: str | None
    witness_only: bool
    text: str
    released: Trace | None


class PocketTest(Wire):
    """A function test and its last run."""

    test: str
    scope: list[str]
    run: Trace | None
    passed: bool


class PocketKit(Wire):
    """A tool kit as last counted."""

    kit: str
    complete: bool
    missing: list[str]
    at: datetime
