"""What goes over the wire about a handover: the ten sections of the sheet, in the order they are read."""

from __future__ import annotations

from datetime import datetime

from pydantic import Field

from .wire import Form, Photo, Wire


class HandoverLine(Wire):
    """One line of the sheet; `ticked` is null where there is no box to tick."""

    subject: str
    text: str
    ticked: bool | None
    photos: list[Photo]
    forms: list[Form] = Field(description="how the text is made, for another language")


class HandoverSection(Wire):
    """One numbered section; without lines it says `nothing`."""

    number: int
    title: str
    lines: list[HandoverLine]
    nothing: str


class HandoverSheet(Wire):
    """The handover sheet of a job as it stands now."""

    job: str
    machine: str
    title: str
    bay: str
    giver: str
    taker: str
    time: datetime | None
    offered: bool = Field(description="somebody offered it and nobody has accepted yet")
    accepted: bool
    sections: list[HandoverSection]
    sealed: str
    entries: int = Field(description="how many entries it rests on")
    head: str = Field(description="the hash of the last of them")
    unsent: list[str]
    forms: list[Form] = Field(description="how the sentences about what is not sent are made")
    address: str = Field(description="what the QR of the printed sheet leads to")
