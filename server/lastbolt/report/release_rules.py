"""What stands in the way of signing a release, and of the lead's word on a finding; each in one sentence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from ..finding import Finding, Severity, pieces
from ..journal.checking import ReleaseAsked
from ..said import said, standing
from ..state.job import Job
from ..state.later_look import LaterLook
from .decisions import weighed
from .text import headline
from .verdict import Verdict

LEAST_LOOK = timedelta(seconds=60)
"""From asking to signing, when there were findings; a guess, to be tuned (practice 5.5)."""
LEAST_REASON = 10


@dataclass(frozen=True, slots=True)
class Signers:
    """Who signs, who else stands for it (None for nobody), and whether the shop has one person only.

    `elsewhere` tells whether who signs worked on another job since the last work on this one.
    """

    by: str
    second: str | None = None
    one_person: bool = False
    elsewhere: bool = False


def in_the_way(job: Job, verdict: Verdict, asked: ReleaseAsked | None, now: datetime) -> tuple[str, ...]:
    """List what keeps anybody from signing now; empty when it may be signed."""
    return tuple(map(standing, _in_the_way(job, verdict, asked, now)))


def _in_the_way(job: Job, verdict: Verdict, asked: ReleaseAsked | None, now: datetime) -> Iterator[str]:
    if job.released is not None and job.changed_after_release is None:
        yield "It is released already."
        return
    if job.released is not None:
        yield "Work was done after the release: reopen the job first, with the reason."
        return
    if job.ended is not None:
        yield "The job was cancelled; a cancelled job is not released."
        return
    stops = sum(1 for f in verdict.findings if f.severity is Severity.STOP)
    words = sum(1 for f in verdict.findings if f.severity is Severity.DECIDE)
    if stops:
        one = "{things} stops it; nothing is released with a stop open."
        many = "{things} stop it; nothing is released with a stop open."
        yield said(one if stops == 1 else many, things=pieces(stops, "thing"))
    if words:
        many = "{n} need the lead's written word first."
        yield said("{n} needs the lead's written word first." if words == 1 else many, n=words)
    yield from _asking(job, verdict, asked, now)


def _asking(job: Job, verdict: Verdict, asked: ReleaseAsked | None, now: datetime) -> Iterator[str]:
    newest = job.asked[-1] if job.asked else None
    touched = last_work(job)
    if newest is None or asked is None or (job.reopened and job.reopened.time > newest.time):
        yield "Nobody has asked for release yet: open the review and ask."
        return
    if touched is not None and touched > newest.time:
        yield "Hands were on the machine since release was asked for: ask again, after a look."
    if asked.nothing_else_apart is None:
        yield "The question is not answered: is anything apart, opened or brought in that is not listed?"
    elif not asked.nothing_else_apart:
        yield "Something is said to be apart that is not on the list: record it, then ask again."
    rest = LEAST_LOOK - (now - newest.time)
    if had_findings(job, verdict) and rest > timedelta(0):
        seconds = int(rest.total_seconds()) + 1
        yield said("There were findings: look at them for {n} seconds more.", n=seconds)


def had_findings(job: Job, verdict: Verdict) -> bool:
    """Tell whether there was something to look at: findings that stand, or words that lift some."""
    return bool(verdict.findings) or bool(job.decisions)


def against_signers(job: Job, signers: Signers, now: datetime, *, is_lead: bool) -> tuple[str, ...]:
    """List what speaks against these people signing (second person: practice C41, 5.10)."""
    return tuple(map(standing, _against(job, signers, now, is_lead=is_lead)))


def _against(job: Job, signers: Signers, now: datetime, *, is_lead: bool) -> Iterator[str]:
    roles = job.people.get(signers.by)
    if not is_lead or (roles is not None and "lead" not in roles):
        yield said("{who} is no lead here; a lead signs.", who=signers.by)
    hands = hands_on(job)
    if signers.by not in hands:
        return
    if signers.one_person and job.is_licensed:
        yield "This is licensed work: in a shop of one too, a second person stands for it, with a PIN."
        return
    if signers.one_person:
        yield from _too_soon(last_work(job) or now, now, elsewhere=signers.elsewhere)
        return
    if signers.second is None:
        form = "{who} had hands on this work: a second person stands for it too, with a PIN."
        yield said(form, who=signers.by)
    elif signers.second.casefold() == signers.by.casefold():
        yield "The second person is somebody else."
    elif signers.second in hands:
        form = "{who} had hands on this work too: somebody who did none of it must look."
        yield said(form, who=signers.second)


def last_work(job: Job) -> datetime | None:
    """Give the moment when hands were last on the machine, None where they never were."""
    return max((act.time for act in job.touched.values()), default=None)


def _too_soon(done: datetime, now: datetime, *, elsewhere: bool) -> Iterator[str]:
    """Say what a later look at one's own work lacks, and from when it may be done."""
    later = LaterLook(done, now, elsewhere)
    if later.counts:
        return
    own = "You did the work yourself, in a shop of one: look again at least 30 minutes after it, from {when}."
    if not later.rested:
        yield said(own, when=f"{later.from_rest:%Y-%m-%d %H:%M}")
    if not elsewhere:
        form = (
            "A night or work on another job has to lie between your work and this look: "
            "do other work first, or look again from {when}."
        )
        yield said(form, when=f"{later.from_night:%Y-%m-%d %H:%M}")


def stands_alone(job: Job, signers: Signers) -> bool:
    """Tell whether somebody signs for their own work, as only a shop of one may."""
    return signers.one_person and signers.by in hands_on(job) and not job.is_licensed


def hands_on(job: Job) -> frozenset[str]:
    """Name everybody whose hands were on the machine in this job."""
    return frozenset().union(*job.hands.values())


def statement(job: Job, verdict: Verdict, signers: Signers) -> str:
    """Write what is read aloud before signing: what was looked at, what stands open, what was not checked."""
    words = weighed(job, verdict)
    deferred = [each for each in words if each.lifts and each.word.decision == "defer"]
    stands = len(words) - len(deferred)
    sentences = [
        f"I looked at {job.machine or 'the machine'}, {job.name}, and at its list: {headline(verdict)}",
        f"I stand for {pieces(stands, 'decision')}." if stands else "",
        f"Deferred, and written into the release: {', '.join(each.word.subject for each in deferred)}."
        if deferred
        else "",
        "Nothing else is apart, opened, drained or brought in that I know of.",
        "This is a later look at my own work; nobody else looked." if stands_alone(job, signers) else "",
        f"{signers.second} looked too." if signers.second else "",
    ]
    return " ".join(part for part in sentences if part)


def against_word(
    finding: Finding | None, fields: dict[str, object], by: str, now: datetime
) -> tuple[str, ...]:
    """List what is missing for the lead's word on a finding to count: a wordless tick is none."""
    return tuple(map(standing, _against_word(finding, fields, by, now)))


def _against_word(
    finding: Finding | None, fields: dict[str, object], by: str, now: datetime
) -> Iterator[str]:
    if finding is None:
        yield "That is not on the list any more; nothing is left to decide."
        return
    word, reason = fields.get("decision"), str(fields.get("reason") or "").strip()
    if len(reason) < LEAST_REASON:
        yield said("Write the reason, in {n} letters or more.", n=LEAST_REASON)
    if word == "rework":
        return
    if not finding.waivable:
        yield "No word can lift this: it is cured by work on the machine alone."
    elif finding.severity is Severity.STOP and word != "defer":
        yield "A stop is cured by work, or deferred with limit, barrier and a second name."
    elif word == "defer":
        yield from _against_deferral(fields, by, now)


def _against_deferral(fields: dict[str, object], by: str, now: datetime) -> Iterator[str]:
    limit, second = fields.get("limit"), str(fields.get("second") or "").strip()
    if not isinstance(limit, datetime):
        yield "A deferral needs a limit: until which day it may stay so."
    elif limit <= now:
        yield "The limit lies in the past; give a day to come."
    if not str(fields.get("barrier") or "").strip():
        yield "A deferral needs a barrier: what stops the harm until then."
    if not second:
        yield "A deferral needs a second name."
    elif second.casefold() == by.casefold():
        yield "The second name is somebody else's."
