"""How many of a device's entries wait for a lead, put down in the journal that they would stand in."""

from __future__ import annotations

from .device_marks import last_mark
from .ports import Shop
from .record import record_here

SERVER = "server"
"""Who is named: nobody said it, the server counted."""


def note_held(shop: Shop, job: str, *, device: str, n: int) -> None:
    """Record how many entries of a device wait for a lead, unless the job knows that already.

    A job that has no entry yet is left alone: it has nothing to release.
    """
    if shop.look_up.job(job) is None:
        return
    if n == last_mark(shop, job, "entries-held", device=("held_device", device), figure="n"):
        return
    fields = {"held_device": device, "n": n, "role": "machine", "mode": "machine"}
    record_here(shop, job, "entries-held", by=SERVER, fields=fields)
