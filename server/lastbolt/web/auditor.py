"""Routes of the auditor's questions (practice 6.3), each answered by one request."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, TypeVar

from fastapi import APIRouter, Query
from pydantic import AwareDatetime, Field

from .desk import AtDesk
from .wire import Wire

router = APIRouter(prefix="/api/auditor", tags=["auditor"])
Job = Annotated[str, Query(min_length=1, max_length=120)]
Answer = TypeVar("Answer", bound=Wire)
Wrench = Annotated[str, Query(min_length=1, max_length=120)]


class Tightening(Wire):
    """One stage on one hole: who, when, to what, with which wrench, from which page, who looked."""

    job: str
    set: str
    hole: int
    stage: int
    by: str
    at: datetime
    value: str
    wrench: str
    wrench_due: datetime | None
    asked: str
    source: str
    looked: str
    entry: str


class Use(Wire):
    """One use of a wrench."""

    job: str
    machine: str
    set: str
    holes: list[int] = Field(description="empty: all of the set")
    value: str
    by: str
    at: datetime
    entry: str


class Joint(Wire):
    """Holes that stand pulled with a wrench in doubt, and whether the machine has gone out with it."""

    job: str
    machine: str
    set: str
    holes: list[int]
    pulled: datetime
    critical: bool
    released: bool
    sentence: str


class Deferral(Wire):
    """One deferral: until when, behind which barrier, by whom, and how it stands now."""

    job: str
    machine: str
    check: str
    subject: str
    by: str
    second: str
    at: datetime
    limit: datetime | None
    barrier: str
    reason: str
    expired: bool
    settled: bool = Field(description="the work was done since")
    released: bool


class Later(Wire):
    """An entry that came in after a release was signed."""

    position: int
    received: datetime
    kind: str
    by: str
    about: str
    is_work: bool
    corrects: bool


class Unattended(Wire):
    """A time in which nobody was signed on, who left last, and what stood bare meanwhile."""

    since: datetime
    until: datetime | None
    last: str
    bare: list[str]


class OwnDecision(Wire):
    """A finding decided by a person who did the work."""

    job: str
    machine: str
    check: str
    subject: str
    decision: str
    by: str
    at: datetime
    reason: str
    doers: list[str]
    sentence: str


@router.get("/tightened", operation_id="askWhoTightened")
def who_tightened(
    desk: AtDesk, job: Job, set: Job, hole: Annotated[int | None, Query(ge=1, le=500)] = None
) -> list[Tightening]:
    """Who tightened this bolt, with which wrench, to what, from which page and revision, who looked?"""
    return [_as(Tightening, each) for each in desk.wired.auditor.tightened(job, set, hole)]


@router.get("/wrench", operation_id="askWhereWrench")
def where_wrench(
    desk: AtDesk, wrench: Wrench, since: AwareDatetime | None = None, until: AwareDatetime | None = None
) -> list[Use]:
    """Which jobs used this wrench between these dates?"""
    return [_as(Use, each) for each in desk.wired.auditor.wrench(wrench, since=since, until=until)]


@router.get("/doubtful-wrench", operation_id="askDoubtfulWrench")
def doubtful_wrench(desk: AtDesk, wrench: Wrench, since: AwareDatetime | None = None) -> list[Joint]:
    """Which joints stand pulled with a wrench found out of calibration, the gravest first?"""
    return [_as(Joint, each) for each in desk.wired.auditor.doubtful(wrench, since)]


@router.get("/deferrals", operation_id="askDeferrals")
def all_deferrals(desk: AtDesk) -> list[Deferral]:
    """Which jobs have a deferral, and is any expired? Expired ones first."""
    return [_as(Deferral, each) for each in desk.wired.auditor.deferred(desk.wired.clock())]


@router.get("/after-signing", operation_id="askAfterSigning")
def after_signing(desk: AtDesk, job: Job) -> list[Later]:
    """What was changed after sign-off?"""
    return [_as(Later, each) for each in desk.wired.auditor.after_signing(job)]


@router.get("/nobody", operation_id="askNobody")
def nobody(desk: AtDesk, job: Job) -> list[Unattended]:
    """Where was the machine without anybody signed on?"""
    return [_as(Unattended, each) for each in desk.wired.auditor.nobody(job)]


@router.get("/own-decisions", operation_id="askOwnDecisions")
def own_decisions(
    desk: AtDesk, job: Annotated[str | None, Query(max_length=120)] = None
) -> list[OwnDecision]:
    """Which findings were decided by the person who did the work?"""
    return [
        OwnDecision(
            job=each.job,
            machine=each.machine,
            check=each.weighed.word.check,
            subject=each.weighed.word.subject,
            decision=each.weighed.word.decision,
            by=each.weighed.word.by,
            at=each.weighed.at,
            reason=each.weighed.word.reason or "",
            doers=list(each.weighed.doers),
            sentence=each.weighed.sentence,
        )
        for each in desk.wired.auditor.own_decisions(job)
    ]


def _as(model: type[Answer], each: object) -> Answer:
    return model.model_validate(each, from_attributes=True)
