"""Routes about entries: the time line, and recording more of them."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Body, Query

from . import answers, wire
from .desk import AtDesk
from .door import AtDoor
from .taking_in import take_in

router = APIRouter(prefix="/api/jobs", tags=["entries"])


@router.get("/{job:path}/entries", operation_id="listEntries")
def list_entries(
    job: str,
    desk: AtDesk,
    before: Annotated[int | None, Query(ge=1, description="only entries at places below this one")] = None,
    limit: Annotated[int, Query(ge=1, le=500)] = 100,
) -> wire.Lines:
    """Give a page of the time line in the order of arrival, the newest first."""
    lines = desk.read(job).lines
    below = [each for each in lines if before is None or each.position < before]
    page = below[-limit:]
    return wire.Lines(
        lines=[answers.line(each) for each in reversed(page)],
        total=len(lines),
        before=page[0].position if len(page) < len(below) else None,
    )


@router.post("/{job:path}/entries", operation_id="recordEntries")
def record_entries(
    job: str,
    desk: AtDesk,
    entries: Annotated[list[dict[str, Any]], Body(min_length=1, max_length=1000)],
    visit: AtDoor,
) -> wire.Recorded:
    """Record entries; sending one twice keeps one. All are sound or none is recorded.

    What a device sends after it was cut off, or in the name of one who signed out on it, is held for a lead.
    """
    before = desk.read_or_new(job)
    lines, held = take_in(desk, visit, job, entries)
    after = desk.read(job) if lines else before
    return answers.recorded(lines, before, after, held=held)
