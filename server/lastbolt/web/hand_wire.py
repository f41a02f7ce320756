"""What goes over the wire to the phone at the machine: next steps, start guard, handover, homes, labels."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..actions.paper_words import Language
from .wire import Finding, Form, Photo, Wire, Witness


class Fetch(Wire):
    """A bag or tray to fetch, and where it lies."""

    container: str
    label: str | None
    place: str | None
    n: int


class Step(Wire):
    """One thing to do; `waits_for` says why it cannot be done yet, empty when it can."""

    kind: str
    element: str
    sentence: str
    why: str
    fetch: list[Fetch]
    bring: list[str]
    waits_for: str
    forms: list[Form] = Field(description="how its sentences are made, for another language")
    photos: list[Photo] = Field(description="newest first, at most two")


class NextSteps(Wire):
    """One thing big, up to three small, and what waits; nobody has to follow it."""

    big: Step | None
    small: list[Step]
    waiting: list[Step]
    at: datetime | None = Field(description="when the last entry happened that this rests on")


class StartGuard(Wire):
    """What stands against turning or starting the machine; there is no green answer."""

    headline: str
    findings: list[Finding]
    not_checked: list[str]
    cautions: list[str]
    forms: list[Form] = Field(description="how its sentences are made, for another language")
    at: datetime | None = Field(description="when the last entry happened that this rests on")


class SheetLine(Wire):
    """One line of the handover sheet; `ticked` is null where there is no box."""

    subject: str
    text: str
    photos: list[Photo]
    ticked: bool | None
    forms: list[Form] = Field(description="how the text is made, for another language")


class SheetSection(Wire):
    """One section; `nothing` is what it says without a line."""

    title: str
    lines: list[SheetLine]
    nothing: str


class Tag(Wire):
    """An isolation in force and whose tag hangs there."""

    isolation: str
    holder: str | None
    proven: bool


class TrayToSee(Wire):
    """A bag or tray with something in it, to be seen on the walk."""

    container: str
    label: str | None
    place: str | None
    n: int


class Offered(Wire):
    """What the giver said, while nobody has taken over yet."""

    by: str
    at: datetime
    to: str | None
    half_done: str | None
    dangerous: str | None
    not_listed: str | None
    voice_note: str | None


class TakeOver(Wire):
    """The handover sheet, and what the taker ticks off."""

    job: str
    machine: str
    title: str
    giver: str
    taker: str
    sections: list[SheetSection]
    offered: Offered | None
    tags: list[Tag]
    trays: list[TrayToSee]
    unsent: list[str]
    at: datetime | None


class Resting(Wire):
    """What was recorded later about the same, and how the list would change without an entry."""

    counts: bool = Field(description="false when the entry was taken back already")
    entry: Witness
    later: list[Witness]
    would_come: list[Finding]
    would_go: list[Finding]


class Offer(Wire):
    """A set that a lone piece may be of, and why; an estimate."""

    job: str
    set: str
    type: str
    share: float
    reasons: list[str]


class Orphan(Wire):
    """One lone piece as measured, and at most three homes, the likeliest first."""

    kind: str | None
    diameter_mm: float | None
    length_mm: float | None
    head_mm: float | None
    offers: list[Offer]


LabelKind = Literal["T", "B", "P", "O", "C", "K", "W", "H", "M", "J", "S"]


FROZEN = ConfigDict(frozen=True, extra="forbid")


class SheetWish(BaseModel):
    """Labels to print that were never printed before; `start` is the first free place of the first page."""

    model_config = FROZEN

    layout: str = Field(default="a4-3x8", max_length=60)
    kind: LabelKind = "B"
    count: Annotated[int, Field(ge=1, le=500)] = 24
    start: Annotated[int, Field(ge=1, le=500)] | None = None
    scale: Annotated[float, Field(ge=0.9, le=1.1)] = 1.0
    language: Language = "en"
    job: str | None = Field(default=None, max_length=120)
    by: str | None = Field(default=None, min_length=1, max_length=120)


class NumbersWish(BaseModel):
    """Numbers to write by hand on bags or trays."""

    model_config = FROZEN

    kind: LabelKind = "B"
    count: Annotated[int, Field(ge=1, le=50)] = 1


class Numbers(Wire):
    """Codes that were never given out before, as they are written by hand."""

    codes: list[str]
