"""Routes about jobs: the list, one job, what is on its list."""

from __future__ import annotations

from fastapi import APIRouter

from . import answers, wire
from .desk import AtDesk

router = APIRouter(prefix="/api/jobs", tags=["jobs"])


@router.get("", operation_id="listJobs")
def list_jobs(desk: AtDesk) -> list[wire.Job]:
    """List every job with its counts, the one last written to first; it waits for no server that starts."""
    return [answers.listed(each) for each in desk.wired.board.every_one()]


@router.get("/{job:path}/findings", operation_id="listFindings")
def list_findings(job: str, desk: AtDesk) -> wire.Findings:
    """Give everything on the list of a job, worst first, and what was not checked."""
    return answers.findings(desk.read(job))


@router.get("/{job:path}/containers", operation_id="listContainers")
def list_containers(job: str, desk: AtDesk) -> list[wire.Container]:
    """Give the bags and trays of a job with what lies in each, by the record."""
    return answers.containers(desk.read(job))


@router.get("/{job:path}/photos", operation_id="listPhotos")
def list_photos(job: str, desk: AtDesk) -> list[wire.Photo]:
    """Give the photos of a job, newest first."""
    return answers.photos(desk.read(job))
