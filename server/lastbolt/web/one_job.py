"""The route of one job, kept apart because its address is the beginning of the others."""

from __future__ import annotations

from fastapi import APIRouter

from . import answers, wire
from .desk import AtDesk

router = APIRouter(prefix="/api/jobs", tags=["jobs"])


@router.get("/{job:path}", operation_id="getJob")
def get_job(job: str, desk: AtDesk) -> wire.Job:
    """Give the head of one job."""
    view, listed = desk.job(job)
    return answers.job(view, listed)
