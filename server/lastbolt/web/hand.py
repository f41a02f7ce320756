"""Routes for whoever stands at the machine: what next, may it turn, taking over, a lone bolt, corrections."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, File, Query, UploadFile

from ..actions import in_hand
from ..actions import orphan as lone
from ..actions.photograph import look_over
from ..errors import NotFoundError
from ..said import said
from ..vision.match import Measured
from . import hand_answers
from . import hand_wire as hand
from .desk import AtDesk
from .door import AtDoor

router = APIRouter(prefix="/api/jobs", tags=["in hand"])
Millimetres = Annotated[float | None, Query(gt=0, le=1000)]


@router.get("/{job:path}/next", operation_id="getNext")
def get_next(job: str, desk: AtDesk) -> hand.NextSteps:
    """Say what to do next: one thing big, three small, what waits; it forces nobody."""
    return hand_answers.next_steps(desk.read(job), in_hand.next_of(desk.wired.bench, job))


@router.get("/{job:path}/start", operation_id="getStartGuard")
def get_start_guard(job: str, desk: AtDesk) -> hand.StartGuard:
    """Say what stands against turning or starting the machine now."""
    return hand_answers.start_guard(desk.read(job), in_hand.guard_of(desk.wired.bench, job))


@router.get("/{job:path}/takeover", operation_id="getTakeOver")
def get_take_over(job: str, desk: AtDesk) -> hand.TakeOver:
    """Give the handover sheet as the job stands, with the trays and tags that the taker ticks off."""
    known = desk.read(job)
    sheet = in_hand.handover_of(desk.wired.bench, job)
    return hand_answers.take_over(known, sheet, desk.wired.bench.timeline(job))


@router.get("/{job:path}/entries/{entry}/rests", operation_id="getResting")
def get_resting(job: str, entry: str, desk: AtDesk) -> hand.Resting:
    """Say what rests on an entry, and how the list would change without it; nothing is changed."""
    known = desk.read(job)
    if entry not in known.by_id:
        raise NotFoundError(
            said(
                "The job {job} has no entry {entry}; its time line shows them all.",
                job=job[:60],
                entry=entry[:40],
            )
        )
    found = in_hand.resting_on(desk.wired.bench, job, entry)
    return hand_answers.resting(known, known.by_id[entry], found)


@router.get("/{job:path}/orphan", operation_id="findHome")
def find_home(
    job: str,
    desk: AtDesk,
    diameter_mm: Millimetres = None,
    length_mm: Millimetres = None,
    head_mm: Millimetres = None,
) -> hand.Orphan:
    """Say where a lone piece may belong, by what was measured of it by hand; an estimate."""
    piece = Measured(None, diameter_mm, length_mm, head_mm)
    return hand_answers.orphan(lone.homes_for_measured(desk.wired.bench, job, piece))


@router.post("/{job:path}/orphan", operation_id="findHomeInPhoto")
def find_home_in_photo(
    job: str, desk: AtDesk, visit: AtDoor, photo: Annotated[UploadFile, File()]
) -> list[hand.Orphan]:
    """Measure each lone piece in a photo and say where it may belong; the photo is not kept."""
    seen = look_over(desk.wired.shop, photo.file.read(), device=visit.device)
    found = lone.homes_in_photo(desk.wired.bench, job, seen)
    return [hand_answers.orphan(each) for each in found]
