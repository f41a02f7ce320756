"""Routes of what is taken along: a job as one zip, its tables as CSV; and a job brought in."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, File, Query, UploadFile
from fastapi.responses import FileResponse, Response
from pydantic import Field
from starlette.background import BackgroundTask

from ..actions.csv_files import csv_file
from ..actions.exchange import export_job, import_job
from ..actions.release_members import release_members
from ..actions.require import require_job
from ..people.rights import Act
from .desk import AtDesk
from .door import AtDoor
from .wire import Wire

router = APIRouter(tags=["take along"])
Customer = Annotated[bool, Query(description="without names of people, for a customer")]


class BroughtIn(Wire):
    """What came in with a zip: how many entries and photos were new."""

    job: str
    entries: int
    photos: int
    head: str
    said: list[str] = Field(description="photos that did not come along, and why")


@router.get("/api/jobs/{job:path}/bundle.zip", operation_id="exportJob", response_class=FileResponse)
def get_bundle(job: str, desk: AtDesk, customer: Customer = False) -> FileResponse:
    """Give a job as one zip: journal, photos, verdict, record, what was signed, and scripts that prove it."""
    wired = desk.wired
    require_job(wired.look_up, job)
    folder = tempfile.TemporaryDirectory(prefix="lastbolt-")
    path = Path(folder.name) / "job.zip"
    more = release_members(wired.shop, wired.bench, wired.releases, job, customer=customer)
    export_job(wired.shop, job, path, customer=customer, more=more)
    name = quote(f"{job}{' for the customer' if customer else ''}.zip")
    return FileResponse(
        path,
        media_type="application/zip",
        headers={"content-disposition": f"attachment; filename*=UTF-8''{name}", "cache-control": "no-store"},
        background=BackgroundTask(folder.cleanup),
    )


@router.post("/api/bundles", operation_id="importJob")
def bring_in(desk: AtDesk, visit: AtDoor, bundle: Annotated[UploadFile, File()]) -> BroughtIn:
    """Take in a job from another shop, its chain as it was sealed; all of it or nothing. A lead does that."""
    visit.person(Act.SETTLE_HELD)
    wired = desk.wired
    with tempfile.TemporaryDirectory(prefix="lastbolt-") as folder:
        path = Path(folder) / "job.zip"
        with path.open("wb") as out:
            while piece := bundle.file.read(1 << 20):
                out.write(piece)
        moved = import_job(wired.shop, wired.sealed, path, releases=wired.releases)
    return BroughtIn(
        job=moved.job, entries=moved.entries, photos=moved.photos, head=moved.head, said=moved.sentences()
    )


@router.get("/api/jobs/{job:path}/{what}.csv", operation_id="getTable", response_class=Response)
def get_table(
    job: str, what: Literal["findings", "torques", "renewals"], desk: AtDesk, customer: Customer = False
) -> Response:
    """Give findings, torques or renewals of a job as CSV, with no cell that a spreadsheet could run."""
    data = csv_file(desk.wired.shop, desk.wired.bench, job, what, customer=customer)
    name = quote(f"{job} {what}.csv")
    headers = {"content-disposition": f"attachment; filename*=UTF-8''{name}", "cache-control": "no-store"}
    return Response(data, media_type="text/csv; charset=utf-8", headers=headers)
