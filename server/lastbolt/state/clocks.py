"""Which entries about one thing change places when clocks are set right (practice C48)."""

from __future__ import annotations

from collections.abc import Iterable

from ..journal.entries import AnyEntry
from .fastener_set import Act
from .job import Job, Turned


def note_turn(job: Job, e: AnyEntry, act: Act, *, about: Iterable[str]) -> None:
    """Compare what a device's clock said with what another's said of the entry before about that thing."""
    if e.mode == "late":
        return
    for name in about:
        before = job.latest_said.get(name)
        if before is not None and before[0] > e.at and before[1] != e.device:
            job.turned.append(Turned(name, before[1], e.device, act))
        if before is None or e.at >= before[0]:
            job.latest_said[name] = (e.at, e.device)


def turned_by(job: Job, device: str) -> Turned | None:
    """Give the newest pair of entries whose order turns with a device's clock: it is the one further off."""
    for turn in reversed(job.turned):
        pair = [job.devices[name] for name in (turn.one, turn.other) if name in job.devices]
        marked = [one for one in pair if one.mark is not None and one.offset_s]
        worst = max(marked, key=lambda one: (abs(one.offset_s), one.name), default=None)
        if worst is not None and worst.name == device:
            return turn
    return None
