"""What goes over the wire about a release: how it stands, what signs it, the record as blocks to be shown."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field, SecretStr

from .wire import Form, Line, Wire


class Paper(Wire):
    """A printed paper that was signed."""

    name: str
    sha256: str


class Released(Wire):
    """A release as it was signed: who, when, over which head, with which key."""

    by: str
    second: str | None
    at: datetime
    statement: str
    position: int = Field(description="place of the signed entry")
    head: str
    record_sha256: str
    signature: str
    public_key: str
    papers: list[Paper]
    no_longer: str = Field(description="empty while it stands")


class ReleaseStanding(Wire):
    """How a job's release stands for whoever holds the device now."""

    signer: str
    second: str | None
    state: Literal["open", "asked", "released", "no longer released"]
    in_the_way: list[str] = Field(description="sentences; empty: it may be signed by the right people")
    against: list[str] = Field(description="what speaks against this signer and this second person")
    forms: list[Form] = Field(description="how those sentences are made, for another language")
    question: str = Field(description="the question about what is not on the list")
    nothing_else_apart: bool | None
    statement: str = Field(description="to be read aloud before signing")
    asked_at: datetime | None
    least_look_s: int = Field(description="seconds from asking to signing, when there were findings")
    may_need_second: bool = Field(description="the signer had hands on this work")
    released: Released | None


class AskWish(BaseModel):
    """Ask for release: the question answered, the scope in words."""

    model_config = ConfigDict(extra="forbid")

    nothing_else_apart: bool
    scope: str | None = Field(default=None, min_length=1, max_length=500)
    meter: str | None = Field(default=None, min_length=1, max_length=40, description="1210 h, 88 300 km")


class SignWish(BaseModel):
    """Sign: the signer's own PIN; a second person's name and PIN where one is needed."""

    model_config = ConfigDict(extra="forbid")

    pin: SecretStr
    second: str | None = Field(default=None, min_length=1, max_length=120)
    second_pin: SecretStr = SecretStr("")
    statement: str | None = Field(default=None, min_length=10, max_length=500)


class ReasonWish(BaseModel):
    """Take a release back, or reopen the job in a scope: why, in ten letters or more."""

    model_config = ConfigDict(extra="forbid")

    reason: str = Field(max_length=500)
    scope: list[str] = Field(default=[], max_length=100)


class WordWish(BaseModel):
    """The lead's word on one finding; a deferral needs limit, barrier and a second name."""

    model_config = ConfigDict(extra="forbid")

    check: str = Field(min_length=1, max_length=120)
    subject: str = Field(min_length=1, max_length=120)
    decision: Literal["accept", "clear", "defer", "rework"]
    reason: str = Field(max_length=500)
    limit: AwareDatetime | None = None
    barrier: str | None = Field(default=None, max_length=500)
    second: str | None = Field(default=None, max_length=120)
    to: str | None = Field(default=None, max_length=120, description="for rework: who is to do it")


class Noted(Wire):
    """An entry that was recorded for the desk."""

    line: Line


class RecordLine(Wire):
    """One line of a block; `ticked` is null where there is no box."""

    text: str
    ticked: bool | None


class RecordTable(Wire):
    """A table of a block; `heads` are empty texts where the rows are pairs of name and value."""

    heads: list[str]
    rows: list[list[str]]


class RecordPicture(Wire):
    """A small picture of a block, by the SHA-256 of its original."""

    sha256: str
    caption: str


class RecordBlock(Wire):
    """One numbered section of the record."""

    number: int
    title: str
    lines: list[RecordLine]
    tables: list[RecordTable]
    pictures: list[RecordPicture]
    nothing: str = Field(description="what it says when there is nothing in it, else empty")


class Record(Wire):
    """The release record as it would be printed now."""

    heading: str
    under: list[str]
    blocks: list[RecordBlock]


class Audit(Wire):
    """What an audit found: faults first; `whole` when nothing was changed."""

    whole: bool
    faults: list[str]
    said: list[str]
    entries: int
    photos: int
    head: str
