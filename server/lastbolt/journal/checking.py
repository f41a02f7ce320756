"""Entries about looking, testing, deciding, releasing, and about the record itself."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, Field, StringConstraints

from .envelope import Count, EntryId, Envelope, Meter, Name, Sha256, Words

Reason = Annotated[str, StringConstraints(min_length=1, max_length=500)]


class SecondChecked(Envelope):
    """A second person looked at these elements.

    A later look by whoever did the work is more than a look (practice 5.10): its `photos` show the work from
    another angle, or the torque was tried again.
    """

    kind: Literal["second-checked"]
    elements: tuple[Name, ...]
    how: Literal["witness", "re-torque", "visual", "photo", "re-look-same-person"] = "visual"
    result: Literal["good", "bad"] = "good"
    torque_again: bool = Field(default=False, description="the wrench was set and clicked on it once more")


class HoldDescribed(Envelope):
    """Stop until this role has looked, before `before` goes on or is run."""

    kind: Literal["hold-described"]
    hold: Name
    before: Name
    role_wanted: Name | None = None
    witness_only: bool = False
    text: Words | None = None


class HoldReleased(Envelope):
    """Looked; late only with how it could still be seen."""

    kind: Literal["hold-released"]
    hold: Name
    late: bool = False
    how_seen: Words | None = None


class StartAsked(Envelope):
    """About to turn or start it."""

    kind: Literal["start-asked"]
    what: Words | None = None


class TestDescribed(Envelope):
    """A function test, and the elements whose touching makes it stale."""

    kind: Literal["test-described"]
    test: Name
    scope: tuple[Name, ...] = ()
    before: Name | None = None


class TestRun(Envelope):
    """The test was run."""

    kind: Literal["test-run"]
    test: Name
    passed: bool
    values: dict[str, Any] = Field(default_factory=dict)


class FindingDecided(Envelope):
    """The lead's word on one finding: accept, clear, rework, or defer with limit, barrier and second name."""

    kind: Literal["finding-decided"]
    check: Name
    subject: Name
    decision: Literal["accept", "clear", "defer", "rework"]
    reason: Reason | None = None
    limit: AwareDatetime | None = None
    barrier: Words | None = None
    second: Name | None = None
    to: Name | None = Field(default=None, description="for rework: who is to do it")


class ReleaseAsked(Envelope):
    """May it go? The verdict is taken at this entry."""

    kind: Literal["release-asked"]
    scope: Words | None = None
    statement: Words | None = None
    nothing_else_apart: bool | None = Field(
        default=None, description="the answer to: anything not on this list?"
    )
    meter: Meter | None = Field(default=None, description="hours or km on the machine's meter: 1210 h")


class ReleaseSigned(Envelope):
    """Signed over the head of the journal."""

    kind: Literal["release-signed"]
    statement: Words | None = None
    head: Sha256 | None = None
    sealed: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{128}$")] | None = Field(
        default=None,
        description="the shop's Ed25519 signature over job, head, names and statement, made when the PINs "
        "had been given: only the shop that can make it again finishes a signing that broke off",
    )
    second: Name | None = Field(default=None, description="who else stands for it, with a PIN of their own")
    one_person: bool = Field(
        default=False, description="a shop of one: a later look by the same person, no second person"
    )


class ReleaseWithdrawn(Envelope):
    """The release no longer stands."""

    kind: Literal["release-withdrawn"]
    reason: Reason


class JobReopened(Envelope):
    """Work goes on after release, in this scope."""

    kind: Literal["job-reopened"]
    reason: Reason
    scope: tuple[Name, ...] = ()


class EntryVoided(Envelope):
    """That entry does not count; it stays readable."""

    kind: Literal["entry-voided"]
    entry: EntryId
    reason: Reason


class EntryReplaced(Envelope):
    """That entry counts with these fields instead."""

    kind: Literal["entry-replaced"]
    entry: EntryId
    fields: dict[str, Any]
    reason: Reason


Correction = EntryVoided | EntryReplaced
"""What changes how another entry counts."""


class ClockMarked(Envelope):
    """How far a device's clock is off: its time minus the server's, in seconds; slow is negative."""

    kind: Literal["clock-marked"]
    marked_device: Name
    offset_s: Annotated[float, Field(ge=-(10**9), le=10**9)]
    order_flips: bool = Field(default=False, description="the server saw the corrected order differ")


class DeviceReported(Envelope):
    """What a device still holds unsent, what is missing in its numbering, and whether it is lost."""

    kind: Literal["device-reported"]
    reported_device: Name
    last_seq: Annotated[int, Field(ge=0)] | None = None
    unsent: Annotated[int, Field(ge=0, le=1_000_000)] = 0
    gap: Count = 0
    lost: bool = False
    unknown: bool = Field(default=False, description="nobody can say what it still holds")


class EntriesHeld(Envelope):
    """How many entries of a device wait for a lead and are not in this journal; 0 when all are settled."""

    kind: Literal["entries-held"]
    held_device: Name
    n: Annotated[int, Field(ge=0, le=1_000_000)]


class JournalSealed(Envelope):
    """The head of the chain at sign-off, handover or release."""

    kind: Literal["journal-sealed"]
    head: Sha256
    count: Annotated[int, Field(ge=0)]
