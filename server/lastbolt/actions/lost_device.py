"""A device cut off as lost, put down in every job that it may still owe entries to (practice 5.8)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..journal import Raw
from .ports import Shop
from .record import record_here
from .verify import Bench

KIND = "device-reported"


@dataclass(frozen=True, slots=True)
class DeviceOut:
    """A device that is not here: its name, the number of its newest entry, and whether it is lost."""

    name: str
    last_seq: int
    lost: bool = True


def report_lost(shop: Shop, bench: Bench, jobs: Iterable[str], out: DeviceOut, *, by: str) -> tuple[str, ...]:
    """Record that nobody can say what a lost device still held, in each of its jobs that is not released.

    Give the jobs. A practice job and a released one are left alone: there is nothing left to release.
    """
    owed = tuple(job for job in dict.fromkeys(jobs) if _is_open(bench, job))
    for job in owed:
        record_here(shop, job, KIND, by=by, fields={**_fields(out), "unknown": True})
    return owed


def report_walked(shop: Shop, job: str, out: DeviceOut, *, by: str) -> None:
    """Record that a lead looked at all that a device had touched in a job: it owes nothing more."""
    record_here(shop, job, KIND, by=by, fields=_fields(out))


def _fields(out: DeviceOut) -> Raw:
    return {"reported_device": out.name, "last_seq": out.last_seq, "lost": out.lost, "role": "lead"}


def _is_open(bench: Bench, job: str) -> bool:
    state = bench.view(job).job
    return state.released is None and not state.is_practice
