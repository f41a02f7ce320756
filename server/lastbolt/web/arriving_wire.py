"""What goes over the wire about photos on their way in."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from .wire import Form, Wire


class Arriving(Wire):
    """How much of an original is here."""

    here: bool = Field(description="all of it is here, its SHA-256 computed anew")
    parts: int = Field(description="whole parts, counted from the first one on; the next has this number")
    part_bytes: int = Field(description="every part but the last has this many bytes")


class Finished(Wire):
    """What became of an original, in words; "again": what came in was changed on the way and begins anew."""

    outcome: Literal["kept", "here already", "refused", "again"]
    sentence: str
    forms: list[Form]


class QuickLook(Wire):
    """What a picture says at a glance; outlines are shares of its width and height."""

    low: int
    count: int
    high: int
    is_sure: bool = Field(description="narrow enough, and nothing in doubt: it may be preselected")
    confidence: float
    method: str
    labels: list[str] = Field(description="codes of ours that were read in it")
    outlines: list[list[tuple[float, float]]]
    warning: str | None = Field(description="look-alikes in one bag, in words")
    doubts: list[str]


class ClockTaken(Wire):
    """Whether the job is here already; if not, the phone says its time again with the job's next parcel."""

    job_is_here: bool
