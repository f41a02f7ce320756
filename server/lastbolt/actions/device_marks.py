"""What the server last put down about a device in a job, so that only a change is put down again."""

from __future__ import annotations

from .ports import Shop


def last_mark(shop: Shop, job: str, kind: str, *, device: tuple[str, str], figure: str) -> float:
    """Give the figure of the newest entry of a kind about a device, 0 where there is none.

    `device` holds the field that names the device, and the device.
    """
    field, name = device
    marks = (line.entry for line in shop.journal.lines(job) if line.entry["kind"] == kind)
    known = [float(raw[figure]) for raw in marks if raw.get(field) == name]
    return known[-1] if known else 0.0
