"""What every entry carries, and the measures and names that entries share."""

from __future__ import annotations

from typing import Annotated, Literal
from uuid import UUID

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, StringConstraints

Name = Annotated[str, StringConstraints(min_length=1, max_length=120, strip_whitespace=True)]
"""An id or the shop's own name for a thing, 1-120 characters."""
Meter = Annotated[str, StringConstraints(min_length=1, max_length=40, strip_whitespace=True)]
"""What the machine's own meter shows, with its unit, as it was read: 1204 h, 88 300 km."""
Words = Annotated[str, StringConstraints(min_length=1, max_length=500)]
"""A person's own words, 1-500 characters."""
Count = Annotated[int, Field(ge=0, le=500)]
"""Whole pieces, 0-500."""
Some = Annotated[int, Field(ge=1, le=500)]
"""At least one piece, 1-500."""
HoleNumber = Annotated[int, Field(ge=1, le=500)]
"""A numbered place of a set; the first is 1."""
Holes = Annotated[tuple[HoleNumber, ...], Field(max_length=500)]
TorqueNm = Annotated[float, Field(ge=0.1, le=3000)]
"""Torque in newton metres, 0.1-3000."""
AngleDeg = Annotated[float, Field(ge=1, le=720)]
"""Angle in degrees, 1-720."""
Litres = Annotated[float, Field(ge=0, le=100_000)]
LengthMm = Annotated[float, Field(gt=0, le=10_000)]
Share = Annotated[float, Field(ge=0, le=1)]
Sha256 = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
Role = Literal["helper", "tech", "licensed", "lead", "reader", "machine"]
Mode = Literal["scan", "tap", "voice", "machine", "late"]
Level = Literal["placed", "snug", "final", "looked-at"]
"""How far something must be before another part hides it."""


MARKED = (0xF << 76) | (0b11 << 62)
VERSION_7 = (7 << 76) | (0b10 << 62)
"""The bits of an id that say version and variant, and what they are in version 7 (RFC 9562, section 5.7)."""


def _is_version_7(value: UUID) -> UUID:
    if value.int & MARKED != VERSION_7:
        raise ValueError("an entry's id is a UUID of version 7 (RFC 9562), made where it was recorded")
    return value


EntryId = Annotated[UUID, AfterValidator(_is_version_7)]


class Record(BaseModel):
    """Frozen, and keeps fields that it does not know, so that a newer phone's entry survives a read."""

    model_config = ConfigDict(frozen=True, extra="allow", allow_inf_nan=False)


class Envelope(Record):
    """The fields of every entry (practice 3.1): who, when, on which device, with which photos."""

    id: EntryId = Field(description="UUIDv7 made where the entry was recorded; sending it twice keeps one")
    job: Name
    device: Name = Field(description="the phone or desk that recorded it")
    seq: int = Field(ge=1, description="counts up by 1 on each device, without gaps")
    at: AwareDatetime = Field(description="what the device's clock said, with its offset from UTC")
    by: Name = Field(description="one person; a shared phone asks who")
    role: Role = "tech"
    mode: Mode = "tap"
    happened_at: AwareDatetime | None = Field(
        default=None, description="for mode 'late': when it happened; 'at' is when it was written down"
    )
    late_reason: Words | None = None
    step: Name | None = None
    zone: Name | None = None
    photos: Annotated[tuple[Name, ...], Field(max_length=20)] = ()
    note: Annotated[str, StringConstraints(max_length=500)] | None = None
    prev: Sha256 | None = Field(
        default=None, description="hash of this device's entry before, if it keeps one"
    )
