"""The pocket of a job: everything that a phone needs to work it without the network, in one answer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from hashlib import sha256
from os import getpid
from typing import Annotated, Any

from fastapi import APIRouter, Header, Response

from ..checks import INTERRUPTING
from ..finding import Finding, worst_first
from ..journal import Happened
from ..journal.evidence import PhotoAdded, PhotoPinned, PhotoRejected
from ..plan.access import access_map
from ..plan.next_step import NextSteps
from ..plan.step import Step
from ..report.start_guard import start_guard
from ..report.torque_sheet import torque_sheet
from ..report.what_next import what_next
from ..state import Job
from . import gallery, pocket_sets
from . import pocket_things as things
from . import pocket_wire as wire
from .desk import AtDesk, Desk
from .forms import forms_of
from .pocket_source import KeptPockets, PocketSource

SAY_OF_PINS = (PhotoAdded, PhotoPinned, PhotoRejected)
"""All that a torque sheet takes from the entries: it reads them once for each set."""

TOUCHED = ("set", "part", "connection", "opening")
"""The fields that name what a step has in hand."""

router = APIRouter(prefix="/api/jobs", tags=["jobs"])


KEPT = KeptPockets()
"""What several phones of one job ask for after each entry is made once."""
STARTED = f"{getpid()} {id(KEPT)}"
"""Another run of the server may judge by other checks: its pockets bear another mark."""
UNCHANGED: dict[int | str, dict[str, Any]] = {304: {"description": "the pocket asked with is the newest"}}


@router.get("/{job:path}/pocket", operation_id="getPocket", response_model=wire.Pocket, responses=UNCHANGED)
def get_pocket(
    job: str,
    desk: AtDesk,
    known: Annotated[str | None, Header(alias="if-none-match")] = None,
) -> Response:
    """Give all that a phone needs to work a job without the network, as of the job's last entry.

    Asked with the mark (`ETag`) of a pocket that is still the newest, the answer is 304 and costs nothing.
    """
    tag = _mark(desk, job)
    if known is not None and tag in known:
        return Response(status_code=304, headers={"etag": tag})
    said = KEPT.said(tag, lambda: pocket_from(desk.pocket_source(job)).model_dump_json().encode())
    return Response(said, media_type="application/json", headers={"etag": tag})


def _mark(desk: Desk, job: str) -> str:
    """Mark all that a pocket is made from: every job's head (its labels may lie elsewhere), and the day."""
    heads = (f"{name} {head}" for name, head in sorted(desk.wired.journal.heads().items()))
    said = (STARTED, job, str(desk.wired.clock().date()), *heads)
    return f'"{sha256(chr(10).join(said).encode()).hexdigest()[:32]}"'


def pocket_from(source: PocketSource) -> wire.Pocket:
    """Put a pocket together; nothing in it is judged here."""
    return wire.Pocket(**_head(source), **_things(source), **_judged(source))


def _head(source: PocketSource) -> dict[str, Any]:
    job, last = source.view.job, source.lines[-1]
    taken: dict[str, int] = {}
    for line in source.lines:
        device, seq = str(line.entry["device"]), int(line.entry["seq"])
        taken[device] = max(seq, taken.get(device, 0))
    return {
        "job": job.name,
        "machine": job.machine,
        "title": job.opened.title if job.opened else "",
        "level": job.level,
        "licensed": list(job.opened.licensed) if job.opened else [],
        "state": source.listed.state,
        "head": wire.PocketHead(
            position=last.position,
            hash=last.hash,
            received=datetime.fromisoformat(last.received),
            taken=taken,
        ),
        "now": job.now,
        "on": source.on,
        "people": _people(job),
        "labels": _labels(job),
        "elsewhere": list(_elsewhere(source.others_open)),
        "steps": _steps(job, source.happened),
        "zones": _zones(source.happened),
        "photos": _photos(job, source.happened),
    }


def _things(source: PocketSource) -> dict[str, Any]:
    job, drawn = source.view.job, access_map(source.view.job)
    pins = (each.entry for each in source.happened if isinstance(each.entry, SAY_OF_PINS))
    sheet = torque_sheet(job, pins, on=source.on)
    return {
        "sets": pocket_sets.sets_of(job, drawn, {row.set: row for row in sheet.rows}),
        "parts": things.parts_of(job, drawn),
        "connections": things.connections_of(job),
        "openings": things.openings_of(job),
        "items": things.items_of(job),
        "isolations": things.isolations_of(job),
        "fluids": things.fluids_of(job),
        "settings": things.settings_of(job),
        "renewals": things.renewals_of(job),
        "wrenches": things.wrenches_of(job),
        "containers": things.containers_of(job, gallery.picture_counts_from(source.happened)),
        "losses": things.losses_of(job),
        "holds": things.holds_of(job),
        "tests": things.tests_of(job),
        "kits": things.kits_of(job),
    }


def _judged(source: PocketSource) -> dict[str, Any]:
    job, verdict = source.view.job, source.view.verdict
    guard = start_guard(job, source.near)
    return {
        "interrupted": [
            wire.Interrupted(element=name, act=act)
            for name, each in job.interrupted.items()
            if (act := pocket_sets.trace(each))
        ],
        "findings": [_finding(each) for each in worst_first(verdict.findings)],
        "not_checked": sorted(verdict.not_checked),
        "next": _next(what_next(job, source.near)),
        "start": wire.PocketStart(
            headline=guard.headline,
            findings=[_finding(each) for each in guard.findings],
            not_checked=list(guard.not_checked),
            cautions=list(guard.cautions),
            forms=forms_of(guard.headline, *guard.cautions),
        ),
    }


def _steps(job: Job, happened: Sequence[Happened]) -> list[wire.PocketStep]:
    """List the steps begun, each with what entries made in it name."""
    touched: dict[str, dict[str, None]] = {name: {} for name in job.steps_started}
    for each in happened:
        own = touched.get(each.entry.step or "")
        named = (getattr(each.entry, field, None) for field in TOUCHED)
        if own is not None and (name := next(filter(None, named), None)):
            own[name] = None
    begun = sorted(job.steps_started.items(), key=lambda each: each[1].time)
    return [
        wire.PocketStep(step=name, by=act.by, done=name in job.steps_done, elements=list(touched[name]))
        for name, act in begun
    ]


def _people(job: Job) -> list[wire.PocketPerson]:
    names = dict.fromkeys([*job.signed_on, *job.workers, *job.people])
    return [
        wire.PocketPerson(
            name=name,
            roles=list(job.people.get(name, ())),
            signed_on=name in job.signed_on,
            last=job.workers[name].time if name in job.workers else None,
        )
        for name in names
    ]


def _labels(job: Job) -> list[wire.BoundLabel]:
    living = [
        wire.BoundLabel(code=code, thing=next(iter(bound)), retired=False)
        for code, bound in job.labels.items()
        if bound
    ]
    return [*living, *(wire.BoundLabel(code=code, thing="", retired=True) for code in job.retired)]


def _elsewhere(others: Iterable[Job]) -> Iterator[wire.OtherLabel]:
    """Give the labels of the shop's other jobs that are not over."""
    for other in others:
        for code, bound in other.labels.items():
            if bound:
                yield wire.OtherLabel(code=code, thing=next(iter(bound)), job=other.name)


def _zones(happened: Sequence[Happened]) -> list[str]:
    said = [h.entry.zone for h in reversed(happened) if h.entry.zone]
    return list(dict.fromkeys(said))


def _photos(job: Job, happened: Sequence[Happened]) -> list[wire.PocketPhoto]:
    pins = _pins(happened)
    shown: dict[str, list[str]] = {}
    for element, photos in job.photos_of.items():
        for photo in dict.fromkeys(photos):
            shown.setdefault(photo, []).append(element)
    return [
        wire.PocketPhoto(
            **dict(each), elements=shown.get(each.photo, []), pins=list(pins.get(each.photo, {}).values())
        )
        for each in gallery.newest_first(gallery.photos_from(happened).values())
    ]


def _pins(happened: Sequence[Happened]) -> dict[str, dict[tuple[str, int | None], wire.PhotoPin]]:
    """Give the pins of each photo; of two for the same hole the newer stands."""
    pins: dict[str, dict[tuple[str, int | None], wire.PhotoPin]] = {}
    for each in happened:
        e = each.entry
        if isinstance(e, PhotoPinned):
            pin = wire.PhotoPin(entry=str(e.id), element=e.element, hole=e.hole, x=e.x, y=e.y)
            pins.setdefault(e.photo, {})[e.element, e.hole] = pin
    return pins


def _finding(each: Finding) -> wire.PocketFinding:
    return wire.PocketFinding(
        check=each.check,
        severity=each.severity.value,
        waivable=each.waivable,
        subject=each.subject,
        sentence=each.sentence,
        to_do=each.to_do,
        forms=forms_of(each.sentence, each.to_do),
        key=each.key,
        entries=list(each.evidence.entries),
        photos=list(each.evidence.photos),
        interrupts=each.check in INTERRUPTING,
    )


def _next(steps: NextSteps) -> wire.PocketNext:
    return wire.PocketNext(
        big=_step(steps.big) if steps.big else None,
        small=[_step(each) for each in steps.small],
        waiting=[_step(each) for each in steps.waiting],
    )


def _step(step: Step) -> wire.NextStep:
    return wire.NextStep(
        kind=step.kind,
        element=step.element,
        sentence=step.sentence,
        why=step.why,
        fetch=[wire.Fetch(container=f.container, place=f.place, n=f.n) for f in step.fetch],
        bring=list(step.bring),
        part=step.part,
        zone=step.zone,
        minutes=step.minutes,
        waits_for=step.waits_for,
        forms=forms_of(step.sentence, step.why, step.waits_for),
    )
