"""Entries about the job, its people, their coming and going, and who may sign."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field, StringConstraints

from .envelope import Envelope, Meter, Name, Role, Words

Licence = Literal["aviation", "pressure", "refrigerant", "high-voltage", "gas", "road-brakes-steering"]
Title = Annotated[str, StringConstraints(min_length=3, max_length=60)]


class JobOpened(Envelope):
    """A machine came in; nothing but its name and a title is needed."""

    kind: Literal["job-opened"]
    machine: Name
    title: Title
    level: Annotated[int, Field(ge=1, le=3)] = 2
    licensed: tuple[Licence, ...] = ()
    redundant_units: tuple[Name, ...] = Field(
        default=(), description="units that back each other up: engine L, engine R"
    )
    hands: bool = Field(
        default=True, description="false for washing or paperwork: nobody touches the machine"
    )
    plan: Name | None = None
    customer_reference: Name | None = None
    meter: Meter | None = Field(default=None, description="hours or km on the machine's meter: 1204 h")
    practice: bool = Field(
        default=False,
        description="for learning only: no board counts it and no other job is judged beside it",
    )


class PlanAdopted(Envelope):
    """A plan made from an earlier job is used from here on."""

    kind: Literal["plan-adopted"]
    plan: Name
    version: Name
    elements: tuple[Name, ...] = Field(default=(), description="sets, parts and connections the plan expects")


class JobLinked(Envelope):
    """Another open job on this machine is known here, and which debts are shared."""

    kind: Literal["job-linked"]
    other: Name
    why: Words | None = None


class JobWaiting(Envelope):
    """Work rests (parts, approval); alarms about bare openings go on."""

    kind: Literal["job-waiting"]
    reason: Words


class JobCancelled(Envelope):
    """The job ends without a release; only sound with no debt left."""

    kind: Literal["job-cancelled"]
    reason: Words


class LevelRaised(Envelope):
    """The job's level of recording goes up; it never goes down."""

    kind: Literal["level-raised"]
    level: Annotated[int, Field(ge=1, le=3)]


class MachineScanned(Envelope):
    """The machine's own label was read; another machine than the job's is a fault."""

    kind: Literal["machine-scanned"]
    machine: Name


class SignedOn(Envelope):
    """`person` (or who records) takes charge of the machine."""

    kind: Literal["signed-on"]
    person: Name | None = None
    bay: Name | None = None


class SignedOff(Envelope):
    """`person` (or who records) leaves the machine."""

    kind: Literal["signed-off"]
    person: Name | None = None
    why: Literal["break", "shift", "done"] = "shift"


class StepStarted(Envelope):
    """A step begins."""

    kind: Literal["step-started"]
    name: Name
    elements: tuple[Name, ...] = ()


class StepDone(Envelope):
    """Somebody says that a step is done; a claim, not a proof."""

    kind: Literal["step-done"]
    name: Name
    elements: tuple[Name, ...] = ()


class WorkInterrupted(Envelope):
    """Called away in the middle of an element."""

    kind: Literal["work-interrupted"]
    element: Name
    level_reached: Name | None = None
    reason: Words | None = None


class WorkResumed(Envelope):
    """Back again: how many steps were gone back, and was it looked over."""

    kind: Literal["work-resumed"]
    element: Name
    went_back: Annotated[int, Field(ge=0, le=100)] = 3
    rechecked: bool = False


class HandoverOffered(Envelope):
    """The giver's side: the three questions answered."""

    kind: Literal["handover-offered"]
    to: Name | None = None
    half_done: Words | None = None
    dangerous: Words | None = None
    not_listed: Words | None = Field(default=None, description="what is apart that no scan knows of")
    voice_note: Name | None = None


class HandoverAccepted(Envelope):
    """The taker's side: which containers were seen, what is disputed."""

    kind: Literal["handover-accepted"]
    giver: Name | None = None
    containers: tuple[Name, ...] = ()
    disputed: tuple[Name, ...] = ()


class PersonDescribed(Envelope):
    """Somebody's name and roles."""

    kind: Literal["person-described"]
    person: Name
    roles: tuple[Role, ...] = ("tech",)


class LicenceRecorded(Envelope):
    """A licence that somebody holds."""

    kind: Literal["licence-recorded"]
    person: Name
    licence: Licence
    number: Name | None = None
    until: date | None = None


class DutySet(Envelope):
    """Something owed after release: re-tighten, look again."""

    kind: Literal["duty-set"]
    duty: Name
    what: Words
    limit: Words
    told_to: Name | None = None
    due: AwareDatetime | None = None


class DutyDone(Envelope):
    """A duty after release was carried out."""

    kind: Literal["duty-done"]
    duty: Name
    value: Words | None = None
