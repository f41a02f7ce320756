"""Entries about values: torque specifications and the wrenches that pull them."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from .envelope import AngleDeg, Envelope, Holes, Name, Record, TorqueNm, Words

Unit = Literal["N·m", "lbf·ft", "lbf·in", "kgf·m", "cN·m"]


class Stage(Record):
    """One pass: a torque, or an angle after it, on all holes or some."""

    min_nm: TorqueNm | None = None
    max_nm: TorqueNm | None = None
    angle_deg: AngleDeg | None = None
    holes: Holes = ()


class SpecEntered(Envelope):
    """The maker's value, with where it comes from."""

    kind: Literal["spec-entered"]
    set: Name
    spec: Name | None = None
    min_nm: TorqueNm | None = None
    max_nm: TorqueNm | None = None
    as_written: Name | None = None
    unit: Unit = "N·m"
    stage_count: Annotated[int, Field(ge=1, le=12)] = 1
    stages: tuple[Stage, ...] = Field(default=(), description="the passes; the last is the final one")
    order: Holes = ()
    order_matters: bool = True
    angle_deg: AngleDeg | None = None
    condition: Name | None = Field(default=None, description="dry, oiled, thread-locker, hot, at ride height")
    hand_tight: bool = Field(default=False, description="by design no value: hand tight")
    prevailing_nm: Annotated[float, Field(ge=0, le=3000)] = 0
    source: Words | None = Field(default=None, description="manual, section")
    revision: Name | None = None
    page: Name | None = None
    general_table: bool = Field(default=False, description="the maker gives none; a general table was used")
    sequence_each_turn: Words | None = None


class SpecChecked(Envelope):
    """A second pair of eyes read the value off the page."""

    kind: Literal["spec-checked"]
    set: Name


class SpecSuperseded(Envelope):
    """The value is out of date: by which source, since when, and the new value if known."""

    kind: Literal["spec-superseded"]
    set: Name
    by_source: Words
    since: AwareDatetime | None = None
    min_nm: TorqueNm | None = None
    max_nm: TorqueNm | None = None


class WrenchDescribed(Envelope):
    """A torque wrench: its kind and marked range."""

    kind: Literal["wrench-described"]
    wrench: Name
    wrench_kind: Literal["click", "indicating", "digital", "angle", "screwdriver"] = "click"
    min_nm: TorqueNm | None = None
    max_nm: TorqueNm | None = None
    due: AwareDatetime | None = Field(default=None, description="calibration due")


class WrenchCalibrated(Envelope):
    """A calibration: the wrench counts as good from here on."""

    kind: Literal["wrench-calibrated"]
    wrench: Name
    calibrated_on: date
    due: AwareDatetime | None = None
    certificate: Name | None = None
    passed: bool = True


class WrenchSuspected(Envelope):
    """Dropped, or failed its calibration: everything since the last good date is in doubt."""

    kind: Literal["wrench-suspected"]
    wrench: Name
    since: AwareDatetime | None = None
    why: Words
