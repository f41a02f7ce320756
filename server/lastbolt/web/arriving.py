"""Routes for photos that come from phones: a small picture first, the original later and in parts."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

from fastapi import APIRouter, Body, Depends, Path, Query, Request
from pydantic import AwareDatetime
from starlette.exceptions import HTTPException

from ..actions import arrive
from ..actions import mark_clock as clocks
from ..actions import quick_look as at_a_glance
from ..said import said
from . import arriving_wire as wire
from .desk import AtDesk
from .door import AtDoor
from .forms import forms_of
from .photos import Digest
from .taking_in import named_here

router = APIRouter(prefix="/api", tags=["photos"])
LARGEST = 1024 * 1024
"""Bytes: neither a part nor a small picture comes near it."""
BINARY = {
    "requestBody": {
        "required": True,
        "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}},
    }
}


async def small_body(request: Request) -> bytes:
    """Read a body that must be small; a sender that goes away in the middle leaves nothing behind."""
    got = bytearray()
    async for piece in request.stream():
        got += piece
        if len(got) > LARGEST:
            raise HTTPException(413, "That is more than one part. Send less at a time.")
    return bytes(got)


Small = Annotated[bytes, Depends(small_body)]


@router.get("/photos/{sha}/parts", operation_id="getParts")
def get_parts(sha: Digest, desk: AtDesk) -> wire.Arriving:
    """Tell how much of an original is here, so that a phone goes on where it was cut off."""
    return _arriving(arrive.progress(desk.wired.shop, sha))


@router.put("/photos/{sha}/parts/{number}", operation_id="putPart", openapi_extra=BINARY)
def put_part(
    sha: Digest, number: Annotated[int, Path(ge=0, le=100_000)], part: Small, desk: AtDesk
) -> wire.Arriving:
    """Take one part of an original: 262144 bytes, the last one fewer. One may come twice."""
    return _arriving(arrive.take_part(desk.wired.shop, sha, number, part))


@router.put("/photos/{sha}/preview", operation_id="putPreview", openapi_extra=BINARY, status_code=204)
def put_preview(
    sha: Digest,
    jpeg: Small,
    desk: AtDesk,
    own: Annotated[str, Query(alias="sha256", pattern="^[0-9a-f]{64}$", description="of the small picture")],
) -> None:
    """Take a small picture that stands for an original on its way."""
    arrive.take_stand_in(desk.wired.shop, sha, jpeg, own_sha256=own)


@router.post("/jobs/{job:path}/photos/{sha}", operation_id="finishPhoto")
def finish_photo(
    job: str, sha: Digest, desk: AtDesk, visit: AtDoor, by: Annotated[str | None, Body(embed=True)] = None
) -> wire.Finished:
    """Take an original whose parts are all here into a job, after its SHA-256 was computed anew."""
    taken = arrive.finish(desk.wired.shop, sha, job=job, by=named_here(visit, by), device=visit.device)
    if taken == "again":
        words = said("What came in has another SHA-256 than the photo on the phone. It begins anew.")
        return wire.Finished(outcome="again", sentence=words, forms=[])
    return wire.Finished(outcome=taken.outcome, sentence=taken.sentence, forms=forms_of(taken.sentence))


@router.post("/look", operation_id="quickLook", openapi_extra=BINARY)
def quick_look(picture: Small, desk: AtDesk, visit: AtDoor) -> wire.QuickLook:
    """Count what a small picture shows, for the count pad; it is not kept and nothing is recorded."""
    return wire.QuickLook(**asdict(at_a_glance.quick_look(desk.wired.shop, picture, device=visit.device)))


@router.post("/jobs/{job:path}/clock", operation_id="markClock")
def mark_clock(
    job: str, desk: AtDesk, visit: AtDoor, now: Annotated[AwareDatetime, Body(embed=True)]
) -> wire.ClockTaken:
    """Take what a phone's clock says now; where it is off, the journal gets a mark that sets times right."""
    here = desk.wired.look_up.job(job) is not None
    if here:
        clocks.mark_clock(desk.wired.shop, job, device=visit.device, said=now)
    return wire.ClockTaken(job_is_here=here)


def _arriving(progress: arrive.Progress) -> wire.Arriving:
    return wire.Arriving(here=progress.here, parts=progress.parts, part_bytes=progress.part_bytes)
