"""What goes over the wire: one frozen model per answer, made from core records."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

Severity = Literal["stop", "decide", "note"]


class Wire(BaseModel):
    """Frozen; every field is always present in an answer, null where nothing is known."""

    model_config = ConfigDict(frozen=True, extra="forbid", json_schema_serialization_defaults_required=True)


class Counts(Wire):
    """How many findings of each severity are open."""

    stop: int
    decide: int
    note: int


class Job(Wire):
    """One job as a line of the list and as the head of its page."""

    job: str
    machine: str
    title: str
    level: int
    state: str
    counts: Counts
    not_checked: list[str] = Field(description="checks that did not run at this job's level")
    entries: int
    last: datetime | None = Field(description="when the last entry happened")
    practice: bool = Field(description="only for learning: counted nowhere")
    older: bool = Field(default=False, description="the counts are from before the server started")


class Photo(Wire):
    """A photo of a job, by what the journal says of it."""

    photo: str
    sha256: str | None
    shape: str
    width: int | None
    height: int | None
    taken: datetime | None = Field(description="the camera's time, where it gave an offset")
    taken_local: str | None = Field(description="the camera's time as written, zone unknown")
    arrived: datetime
    element: str | None
    container: str | None
    labels: list[str] = Field(description="label texts read in it")
    step: str | None = Field(description="the step of the job during which it was taken")
    rejected: str | None = Field(description="why it was set aside")
    device: str | None = Field(description="the phone or desk that recorded it")
    original: Literal["here", "on the phone", "missing"] | None = Field(
        description="where the original is; until it is here a small picture stands in for it"
    )


class Witness(Wire):
    """One entry as evidence: who recorded what, when."""

    entry: str
    kind: str
    by: str
    at: datetime
    recorded: dict[str, Any]


class Form(Wire):
    """A sentence with gaps, and what fills them: a form again, or a name, which no language changes."""

    form: str
    parts: dict[str, str | Form]


class Finding(Wire):
    """One thing that a check argues, with what it rests on and what to do now."""

    check: str
    severity: Severity
    waivable: bool
    subject: str
    sentence: str
    to_do: str
    forms: list[Form] = Field(description="how its sentences are made, for another language")
    key: str
    entries: list[Witness]
    photos: list[Photo]


class Findings(Wire):
    """Everything on the list of one job, worst first."""

    findings: list[Finding]
    not_checked: list[str]


class Pieces(Wire):
    """Some pieces of one set in a container, by the record."""

    n: int
    set: str | None
    type: str | None
    new: bool


class PictureCount(Wire):
    """What the reader counted in a picture: an estimate."""

    low: int
    high: int
    at: datetime


class Container(Wire):
    """A bag or tray: what lies in it by the record, its label, its photos."""

    container: str
    kind: str
    label: str | None
    place: str | None
    contents: list[Pieces]
    looked_empty: datetime | None
    counted: PictureCount | None
    photos: list[Photo] = Field(description="newest first")


class Line(Wire):
    """One stored entry with its place, its arrival and its seal."""

    position: int
    received: datetime
    hash: str
    entry: dict[str, Any]


class Lines(Wire):
    """A page of the time line, newest first."""

    lines: list[Line]
    total: int
    before: int | None = Field(
        description="give this as `before` to get the next, older page; null at the end"
    )


class Recorded(Wire):
    """What became of entries that were sent: their places, and how the list changed."""

    lines: list[Line]
    held: int = Field(description="how many wait for a lead instead of going into the record")
    came_up: list[Finding]
    went_away: list[str] = Field(description="keys of findings that are gone")


class PhotoOutcome(Wire):
    """What became of one photo that was sent, in words."""

    file: str
    kept: bool
    sentence: str
    forms: list[Form]
    sha256: str | None
    container: str | None = Field(description="the bag or tray that its label leads to")
    labels: list[str]


class Label(Wire):
    """What a label is bound to here."""

    code: str
    job: str | None
    container: str | None
    sentence: str
    forms: list[Form] = Field(description="how the sentence is made, for another language")


class Problem(BaseModel):
    """An answer to what went wrong (RFC 9457): one sentence with a way out."""

    type: str = "about:blank"
    title: str
    status: int
    detail: str
    forms: list[Form] = Field(default=[], description="how the sentence is made, for another language")


class CheckPage(Wire):
    """One check as the manual shows it; `level` is the least level of a job at which it runs."""

    name: str
    level: int
    title: str
    finds: str
    matters: str
    example: str
    clear: str
    silent: str
    live: bool
    interrupts: bool
    guards_start: bool
