"""What goes over the wire about torque: the sheet of a job, and a torque as typed."""

from __future__ import annotations

from datetime import date, datetime
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from .wire import Wire


class WrenchSuit(Wire):
    """A registered wrench for a stage: what to set, how far it may be off (± N·m), what speaks against it."""

    wrench: str
    suits: bool
    setting_nm: float | None
    uncertainty_nm: float | None
    objections: list[str]


class StageAsked(Wire):
    """One stage as asked: N·m with drag added, degrees, the holes where it is not for all."""

    stage: int
    low_nm: float | None
    high_nm: float | None
    angle_deg: float | None
    holes: list[int]
    wrenches: list[WrenchSuit] = Field(description="the best first")


class StagePulled(Wire):
    """One stage that stands pulled on a hole: what may be claimed for it."""

    stage: int
    said: str
    value_nm: float | None = Field(description="as set on the wrench or shown by it")
    wrench: str
    by: str
    at: datetime
    fault: str


class HoleRow(Wire):
    """One hole of a set; `why` says what it owes."""

    hole: int
    state: Literal["open", "done", "untouched"]
    next_stage: int | None
    why: str
    pulls: list[StagePulled]


class TorqueDrawing(Wire):
    """The pattern of a set: SVG text without styles, scripts or ids."""

    svg: str
    order: list[int]
    is_suggested: bool
    title: str
    remark: str


class TorqueRow(Wire):
    """One fastener set with a value; holes and warnings as they stand, nothing filled in."""

    set: str
    part: str
    kind: str
    as_written: str = Field(description="as printed; empty where only N·m was entered")
    exact: str
    stages: list[StageAsked]
    drag_nm: float
    condition: str
    source: str
    typed_by: str
    checked_by: list[str]
    superseded_by: str
    plausibility: str
    warnings: list[str]
    drawing: TorqueDrawing | None
    open_holes: list[int]
    holes: list[HoleRow] = Field(description="the open ones first")


class TorqueSheet(Wire):
    """The torque sheet of a job, sets with open holes first."""

    on: date | None = Field(description="the day that the wrenches are judged for")
    rows: list[TorqueRow]
    without_value: list[str] = Field(description="touched sets with neither a value nor hand tight by design")
    cautions: list[str]


class TorqueText(BaseModel):
    """A torque as a person types it, with the thread and property class that it is for, where known."""

    model_config = ConfigDict(extra="forbid")

    text: str = Field(max_length=500)
    thread: str = Field(default="", max_length=60)
    property_class: str = Field(default="", max_length=20, alias="class")


class TorqueQuantity(Wire):
    """One figure or range as written, and in N·m."""

    text: str
    unit: str
    low: float
    high: float
    low_nm: float
    high_nm: float


class TorqueRead(Wire):
    """What was read: the first quantity counts; `fields` are those of a `spec-entered` entry."""

    quantities: list[TorqueQuantity]
    fields: dict[str, str | float]
    warnings: list[str]
    cautions: list[str]
