"""How entries about the job and its people change a job, and who takes over from whom."""

from __future__ import annotations

from datetime import date

from ..journal.people import (
    DutyDone,
    DutySet,
    HandoverAccepted,
    HandoverOffered,
    JobCancelled,
    JobLinked,
    JobOpened,
    LevelRaised,
    LicenceRecorded,
    MachineScanned,
    PersonDescribed,
    PlanAdopted,
    SignedOff,
    SignedOn,
    StepDone,
    StepStarted,
    WorkInterrupted,
    WorkResumed,
)
from .fastener_set import Act
from .job import Job

SILENT_HOURS_S = 2 * 3600
"""A holder silent this long has gone (practice C43)."""
OVERNIGHT_FROM_H, OVERNIGHT_TO_H = 16, 5
"""Signing off between these hours with nobody left means the night (practice C29; common practice)."""


def open_job(job: Job, e: JobOpened, act: Act) -> None:
    """The machine is in; the level may only go up."""
    job.level = e.level if job.opened is None else max(job.level, e.level)
    job.opened = e


def raise_level(job: Job, e: LevelRaised, act: Act) -> None:
    """The level of recording goes up."""
    job.level = max(job.level, e.level)


def adopt_plan(job: Job, e: PlanAdopted, act: Act) -> None:
    """A plan's elements are expected from here on."""
    job.plan_elements |= set(e.elements)


def link_job(job: Job, e: JobLinked, act: Act) -> None:
    """Another job is known here."""
    job.linked_jobs.add(e.other)


def cancel_job(job: Job, e: JobCancelled, act: Act) -> None:
    """Ended without release."""
    job.ended = act


def scan_machine(job: Job, e: MachineScanned, act: Act) -> None:
    """The machine's own label."""
    job.machine_scans.append((act, e.machine))


def sign_on(job: Job, e: SignedOn, act: Act) -> None:
    """In charge."""
    job.signed_on[e.person or e.by] = act
    job.alone_since = None


def sign_off(job: Job, e: SignedOff, act: Act) -> None:
    """Away; whoever leaves last leaves bare mouths alone, unless it is for a break that no night follows."""
    person = e.person or e.by
    job.signed_on.pop(person, None)
    is_last = not job.signed_on and not _somebody_else_works(job, person, act)
    job.alone_since = act if is_last else None
    if e.why == "break":
        return
    job.shift_ended = act._replace(by=person)
    job.workers.pop(person, None)
    if not is_last:
        return
    hour = act.time.hour
    night = hour >= OVERNIGHT_FROM_H or hour < OVERNIGHT_TO_H
    for opening in job.openings.values():
        if opening.is_bare and (opening.letter == "A" or (opening.letter == "B" and night)):
            opening.unattended = act


def _somebody_else_works(job: Job, person: str, act: Act) -> bool:
    """Tell whether another who never signed on worked here just before: who acts is there (practice 3.3)."""
    others = (last for who, last in job.workers.items() if who != person)
    return any((act.time - last.time).total_seconds() <= SILENT_HOURS_S for last in others)


def note_newcomer(job: Job, act: Act) -> None:
    """Somebody works here who did not before: without a handover when nobody who knew was there any more."""
    since = [(act.time - last.time).total_seconds() for last in job.workers.values()]
    silent = bool(since) and min(since) > SILENT_HOURS_S
    if job.signed_on.keys() & job.workers.keys() and not silent:
        return
    if _came_after_a_shift(job, act) or (silent and not _is_shared(job, act)):
        job.gaps[act.by] = act


def _came_after_a_shift(job: Job, act: Act) -> bool:
    """Tell whether another's shift ended before this one signed on, and nobody else is signed on."""
    ended, here = job.shift_ended, job.signed_on.get(act.by)
    if ended is None or ended.by == act.by or (here is not None and here.when < ended.when):
        return False
    return not job.signed_on.keys() - {act.by}


def _is_shared(job: Job, act: Act) -> bool:
    """Tell whether somebody else signed on was heard of within two hours of when this one signed on."""
    here = job.signed_on.get(act.by)
    if here is None:
        return False
    heard = [max(job.workers.get(who, on), on) for who, on in job.signed_on.items() if who != act.by]
    return any((here.time - last.time).total_seconds() <= SILENT_HOURS_S for last in heard)


def note_night(job: Job, act: Act) -> None:
    """Something is recorded after the last one left: what stood bare over a night was alone, but bodywork."""
    left = job.alone_since
    if left is None or act.time.astimezone(left.time.tzinfo).date() <= left.time.date():
        return
    for opening in job.openings.values():
        if opening.is_bare and opening.letter != "C" and opening.bare[-1][0] <= left.time:
            opening.unattended = opening.unattended or left


def start_step(job: Job, e: StepStarted, act: Act) -> None:
    """A step begins."""
    job.steps_started.setdefault(e.name, act)
    job.steps_done.pop(e.name, None)


def finish_step(job: Job, e: StepDone, act: Act) -> None:
    """A step is said to be done."""
    job.steps_done[e.name] = (act, e.elements)


def interrupt(job: Job, e: WorkInterrupted, act: Act) -> None:
    """Called away."""
    job.interrupted[e.element] = act


def resume(job: Job, e: WorkResumed, act: Act) -> None:
    """Back; only a look over what was half done closes it."""
    if e.rechecked:
        job.interrupted.pop(e.element, None)


def offer(job: Job, e: HandoverOffered, act: Act) -> None:
    """The giver's side."""
    job.offered = act


def accept(job: Job, e: HandoverAccepted, act: Act) -> None:
    """The taker's side: whatever still holds parts must have been seen."""
    job.shift_ended = job.offered = None
    job.gaps.pop(e.by, None)
    job.workers = {e.by: act}
    seen = set(e.containers)
    for name, container in job.containers.items():
        if name in seen and name not in e.disputed:
            container.scanned, container.unseen_at_handover = act, None
        elif job.ledger.balance(name) and container.kind != "place" and not name.startswith("hand of "):
            container.unseen_at_handover = act


def describe_person(job: Job, e: PersonDescribed, act: Act) -> None:
    """Name and roles."""
    job.people[e.person] = e.roles


def record_licence(job: Job, e: LicenceRecorded, act: Act) -> None:
    """A licence and the last day it runs."""
    job.licences[e.person][e.licence] = e.until or date.max


def set_duty(job: Job, e: DutySet, act: Act) -> None:
    """Owed after release."""
    job.duties[e.duty] = (act, e.told_to, e.due, False)


def do_duty(job: Job, e: DutyDone, act: Act) -> None:
    """Carried out."""
    before = job.duties.get(e.duty)
    told, due = (before[1], before[2]) if before else (None, None)
    job.duties[e.duty] = (act, told, due, True)
