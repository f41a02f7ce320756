"""Route of the phones that wrote in a job: when each was last heard of, so that none is released past."""

from __future__ import annotations

from datetime import datetime, timedelta

from fastapi import APIRouter

from ..actions.require import require_job
from ..people.rights import Act
from . import session_wire as wire
from .desk import AtDesk
from .door import AtDoor

router = APIRouter(prefix="/api/jobs", tags=["people"])
QUIET_AFTER = timedelta(minutes=15)
"""A phone with the page open is heard of every minute or so; common practice, no source."""


@router.get("/{job:path}/phones", operation_id="listPhones")
def list_phones(job: str, desk: AtDesk, visit: AtDoor) -> list[wire.PhoneHeard]:
    """Give the devices that wrote in a job, the one not heard of for longest first.

    A phone out of reach may hold entries that no verdict knows of; nobody but its holder can say.
    """
    visit.person(Act.READ)
    wired = desk.wired
    require_job(wired.look_up, job)
    by = {str(line.entry["device"]): str(line.entry["by"]) for line in wired.journal.lines(job)}
    now = wired.clock()
    found = [
        wire.PhoneHeard(
            device=line.device.device,
            by=by[line.device.device],
            heard=heard,
            quiet=now - heard >= QUIET_AFTER,
        )
        for line in wired.people.shop.devices()
        if line.device.device in by and (heard := datetime.fromisoformat(line.device.seen))
    ]
    return sorted(found, key=lambda phone: phone.heard)
