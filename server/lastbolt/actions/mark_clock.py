"""How far a phone's clock is off the server's, put down in the journal so that order can be set right."""

from __future__ import annotations

from datetime import datetime

from .device_marks import last_mark
from .ports import Shop
from .record import record_here
from .require import require_job

NOTED_FROM_S = 30.0
"""Less than this is the way over the network and the person's reading of a clock."""
SERVER = "server clock"
"""Who is named: nobody said it, the server compared."""


def mark_clock(shop: Shop, job: str, *, device: str, said: datetime) -> float | None:
    """Record by how many seconds a device's clock is ahead, unless the job knows that already.

    Raises:
        NotFoundError: no entry names the job.
    """
    require_job(shop.look_up, job)
    offset = (said - shop.clock()).total_seconds()
    known = last_mark(shop, job, "clock-marked", device=("marked_device", device), figure="offset_s")
    if abs(offset - known) < NOTED_FROM_S:
        return None
    fields = {"marked_device": device, "offset_s": round(offset, 1), "role": "machine", "mode": "machine"}
    record_here(shop, job, "clock-marked", by=SERVER, fields=fields)
    return offset
