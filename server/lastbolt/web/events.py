"""Routes that tell of the shop: its settings, and changes as they happen, as server-sent events."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import StreamingResponse
from pydantic import Field

from ..actions.require import require_job
from .desk import AtDesk
from .live import Live
from .wire import Wire


class Shop(Wire):
    """What the shop set for all its pages."""

    torque_unit: str = Field(description="N·m or lbf·ft")
    one_person: bool = Field(
        description="who did the work may sign alone, after a later look; set on the server"
    )


router = APIRouter(prefix="/api", tags=["events"])


def _live(request: Request) -> Live:
    live: Live = request.app.state.live
    return live


Told = Annotated[Live, Depends(_live)]
STREAM = {"cache-control": "no-store", "x-accel-buffering": "no"}


@router.get("/events", operation_id="followShop", response_class=StreamingResponse)
async def follow_shop(live: Told) -> StreamingResponse:
    """Tell of every job that gets new entries: events `now`, `changed` (with `job` and `head`) and `beat`."""
    return StreamingResponse(live.stream(None), media_type="text/event-stream", headers=STREAM)


@router.get("/shop", operation_id="getShop")
def get_shop(desk: AtDesk) -> Shop:
    """Say how this shop writes torques."""
    settings = desk.wired.settings
    return Shop(torque_unit=settings.torque_unit.value, one_person=settings.one_person)


def _existing(job: str, desk: AtDesk) -> str:
    require_job(desk.wired.look_up, job)
    return job


@router.get("/jobs/{job:path}/events", operation_id="followJob", response_class=StreamingResponse)
async def follow_job(job: Annotated[str, Depends(_existing)], live: Told) -> StreamingResponse:
    """Tell whenever this job gets new entries."""
    return StreamingResponse(live.stream(job), media_type="text/event-stream", headers=STREAM)
