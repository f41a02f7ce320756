"""The auditor's questions, answered from the record of one job (practice 6.3); each row stands by itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from ..journal.chain import Line
from ..journal.fasteners import FastenersRetightened, FastenersTightened
from ..journal.order import CORRECTIONS, Happened
from ..state.fold import SUBJECT_FIELDS, WORK
from ..state.job import Job
from ..state.readiness import valid_pulls
from .custody import alone
from .decisions import Weighed, weighed
from .release_groups import asked, seconds
from .torque_asked import source_words
from .verdict import Verdict


@dataclass(frozen=True, slots=True)
class Tightening:
    """One stage on one hole: who, when, to what, with which wrench, from which page, and who looked at it."""

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


def who_tightened(job: Job, set_name: str, hole: int | None = None) -> tuple[Tightening, ...]:
    """Answer: who tightened this bolt, with which wrench, to what, from which page, and who looked?"""
    group = job.sets.get(set_name)
    if group is None:
        return ()
    found = []
    for where, stage, pull in valid_pulls(group):
        if hole is not None and where.number != hole:
            continue
        e, wrench = pull.entry, job.wrenches.get(pull.entry.wrench or "")
        found.append(
            Tightening(
                job=job.name,
                set=set_name,
                hole=where.number,
                stage=stage,
                by=pull.act.by,
                at=pull.act.time,
                value=value_words(e),
                wrench=e.wrench or "",
                wrench_due=wrench.due if wrench else None,
                asked=asked(group),
                source=source_words(group.spec) if group.spec else "",
                looked=seconds(job, group),
                entry=pull.act.id,
            )
        )
    return tuple(sorted(found, key=lambda row: (row.hole, row.stage)))


def value_words(e: FastenersTightened | FastenersRetightened) -> str:
    """Write what was pulled, as typed where that was kept."""
    written = getattr(e, "as_written", None)
    angle = getattr(e, "angle_deg", None)
    nm = f"{e.value_nm:g} N·m" if e.value_nm is not None else ""
    parts = [written or nm, f"{angle:g}°" if angle is not None else ""]
    return " + ".join(part for part in parts if part) or "no value"


@dataclass(frozen=True, slots=True)
class Use:
    """One use of a wrench."""

    job: str
    machine: str
    set: str
    holes: tuple[int, ...]
    value: str
    by: str
    at: datetime
    entry: str


def wrench_uses(
    job: Job, happened: Iterable[Happened], wrench: str, *, since: datetime | None, until: datetime | None
) -> Iterator[Use]:
    """Answer for one job: was this wrench used between these dates?"""
    for h in happened:
        e = h.entry
        if not isinstance(e, FastenersTightened | FastenersRetightened) or e.wrench != wrench:
            continue
        if (since is None or h.time >= since) and (until is None or h.time < until):
            yield Use(job.name, job.machine, e.set, tuple(e.holes), value_words(e), e.by, h.time, str(e.id))


@dataclass(frozen=True, slots=True)
class Deferral:
    """One deferral: until when, behind which barrier, by whom; expired and still open, or settled since."""

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
    settled: bool
    released: bool


def deferrals(job: Job, verdict: Verdict, now: datetime) -> tuple[Deferral, ...]:
    """Answer for one job: was it released with a deferral, and is any expired?"""
    return tuple(_deferral(job, each, now) for each in weighed(job, verdict) if each.word.decision == "defer")


def _deferral(job: Job, each: Weighed, now: datetime) -> Deferral:
    word = each.word
    touched = job.touched.get(word.subject)
    settled = touched is not None and touched.time > each.at
    return Deferral(
        job=job.name,
        machine=job.machine,
        check=word.check,
        subject=word.subject,
        by=word.by,
        second=word.second or "",
        at=each.at,
        limit=word.limit,
        barrier=word.barrier or "",
        reason=word.reason or "",
        expired=not settled and word.limit is not None and word.limit < now,
        settled=settled,
        released=job.released is not None,
    )


@dataclass(frozen=True, slots=True)
class Later:
    """An entry that came in after a release was signed."""

    position: int
    received: str
    kind: str
    by: str
    about: str
    is_work: bool
    corrects: bool


def changed_after_signing(lines: Sequence[Line]) -> tuple[Later, ...]:
    """Answer: what was changed after sign-off? Everything that came in after the first release was signed."""
    first = next((line.position for line in lines if line.entry.get("kind") == "release-signed"), None)
    if first is None:
        return ()
    return tuple(
        Later(
            position=line.position,
            received=line.received,
            kind=str(line.entry.get("kind")),
            by=str(line.entry.get("by")),
            about=about_of(line.entry),
            is_work=line.entry.get("kind") in WORK,
            corrects=line.entry.get("kind") in CORRECTIONS,
        )
        for line in lines
        if line.position > first
    )


def about_of(raw: dict[str, object]) -> str:
    """Name what a stored entry is about, empty where it names nothing."""
    fields = (*SUBJECT_FIELDS, "kit", "wrench", "photo", "subject", "reason", "entry")
    named = (raw.get(field) for field in fields)
    return next((str(value) for value in named if value), "")


@dataclass(frozen=True, slots=True)
class Unattended:
    """A time in which nobody was signed on, and what stood open then."""

    since: datetime
    until: datetime | None
    last: str
    bare: tuple[str, ...]


def without_anybody(job: Job, happened: Sequence[Happened]) -> tuple[Unattended, ...]:
    """Answer: where was the machine without anybody signed on, and which mouths were bare meanwhile?"""
    found = []
    for gap in alone(happened):
        bare = [
            opening.name
            for opening in job.openings.values()
            if any(
                (gap.until is None or since < gap.until) and (until is None or until > gap.since)
                for since, until in opening.bare
            )
        ]
        found.append(Unattended(gap.since, gap.until, gap.last, tuple(sorted(bare))))
    return tuple(found)


def decided_on_own_work(job: Job, verdict: Verdict) -> tuple[Weighed, ...]:
    """Answer: which findings were decided by the person who did the work?"""
    return tuple(each for each in weighed(job, verdict) if each.on_own_work)
