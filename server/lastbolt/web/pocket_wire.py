"""What goes over the wire for a phone to work a job by itself: the pocket and what it is made of."""

from __future__ import annotations

from datetime import date, datetime

from pydantic import Field

from . import pocket_wire_sets as sets
from . import pocket_wire_things as things
from .pocket_wire_sets import Trace
from .wire import Form, Photo, Severity, Wire


class PocketHead(Wire):
    """Up to which line of the journal this was made: its place, its seal, when the server got it."""

    position: int
    hash: str
    received: datetime
    taken: dict[str, int] = Field(description="by device: the highest number of its entries that is in here")


class PocketPerson(Wire):
    """Somebody in the job: roles by the record, whether signed on, when last heard of."""

    name: str
    roles: list[str]
    signed_on: bool
    last: datetime | None


class BoundLabel(Wire):
    """A label of this job by its code: on what it is; `retired` when it is dead."""

    code: str
    thing: str
    retired: bool


class OtherLabel(Wire):
    """A living label of another open job."""

    code: str
    thing: str
    job: str


class PhotoPin(Wire):
    """A hole or element marked on a photo, in shares of its width and height; `entry` said so."""

    entry: str
    element: str
    hole: int | None
    x: float
    y: float


class PocketPhoto(Photo):
    """A photo with everything that it was said to show, and its pins."""

    elements: list[str]
    pins: list[PhotoPin]


class PocketFinding(Wire):
    """A finding without its evidence spelled out."""

    check: str
    severity: Severity
    waivable: bool
    subject: str
    sentence: str
    to_do: str
    forms: list[Form] = Field(description="how its sentences are made, for another language")
    key: str
    entries: list[str]
    photos: list[str]
    interrupts: bool = Field(description="one of the seven that may interrupt with sound")


class Fetch(Wire):
    """A bag or tray to fetch, where it lies, and how many pieces are in it."""

    container: str
    place: str | None
    n: int


class NextStep(Wire):
    """One thing to do; `waits_for` says why not yet."""

    kind: str
    element: str
    sentence: str
    why: str
    fetch: list[Fetch]
    bring: list[str]
    part: str | None
    zone: str | None
    minutes: float | None
    waits_for: str
    forms: list[Form] = Field(description="how its sentences are made, for another language")


class PocketNext(Wire):
    """What next: one thing big, up to three small, and what waits."""

    big: NextStep | None
    small: list[NextStep]
    waiting: list[NextStep]


class PocketStart(Wire):
    """The start guard's answer as of the head."""

    headline: str
    findings: list[PocketFinding]
    not_checked: list[str]
    cautions: list[str]
    forms: list[Form] = Field(description="how its sentences are made, for another language")


class Interrupted(Wire):
    """An element at which somebody was called away."""

    element: str
    act: Trace


class PocketStep(Wire):
    """A step of the work as somebody began it, and what was touched in it."""

    step: str
    by: str
    done: bool
    elements: list[str] = Field(description="sets, parts, connections and openings touched in it, in order")


class Pocket(Wire):
    """Everything that a phone needs to work one job without the network, as of `head`."""

    job: str
    machine: str
    title: str
    level: int
    licensed: list[str]
    state: str
    head: PocketHead
    now: datetime | None = Field(description="when the last entry happened")
    on: date = Field(description="the day that wrenches are judged for")
    people: list[PocketPerson]
    labels: list[BoundLabel]
    elsewhere: list[OtherLabel]
    sets: list[sets.PocketSet]
    parts: list[things.PocketPart]
    connections: list[things.PocketConnection]
    openings: list[things.PocketOpening]
    items: list[things.PocketItem]
    isolations: list[things.PocketIsolation]
    fluids: list[things.PocketFluid]
    settings: list[things.PocketSetting]
    renewals: list[things.PocketRenewal]
    wrenches: list[things.PocketWrench]
    containers: list[things.PocketContainer]
    losses: list[things.PocketLoss]
    holds: list[things.PocketHold]
    tests: list[things.PocketTest]
    kits: list[things.PocketKit]
    steps: list[PocketStep] = Field(description="the last begun last")
    interrupted: list[Interrupted]
    zones: list[str] = Field(description="as far as said, the last worked in first")
    photos: list[PocketPhoto] = Field(description="newest first")
    findings: list[PocketFinding] = Field(description="worst first")
    not_checked: list[str]
    next: PocketNext
    start: PocketStart
