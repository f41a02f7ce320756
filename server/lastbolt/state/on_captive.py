"""How entries about captive points change a job: quarter-turns, latches, screws that stay in their part."""

from __future__ import annotations

from ..journal.fasteners import CaptiveReleased, CaptiveShut
from .fastener_set import Act, FastenerSet
from .job import Job, Oddity


def release_captive(job: Job, e: CaptiveReleased, act: Act) -> None:
    """Captive points opened; all that are shut if no number is said."""
    group = job.set_named(e.set)
    shut = group.n - group.captive_open if group.described else 1
    group.captive_open += e.points if e.points is not None else max(shut, 0)
    group.captive_act = act


def shut_captive(job: Job, e: CaptiveShut, act: Act) -> None:
    """Captive points latched."""
    group = job.set_named(e.set)
    slackened = [hole for hole in group.holes.values() if hole.loose]
    if slackened and not group.captive_open:
        for hole in slackened[: e.points or len(slackened)]:
            hole.loose = None
        return
    shut_points(job, group, e.points, act)


def shut_points(job: Job, group: FastenerSet, n: int | None, act: Act) -> None:
    """Latch n of the released points, all if no number is said."""
    points = n if n is not None else group.captive_open
    if points > group.captive_open:
        what = "more points were shut than were released"
        job.oddities.append(Oddity(group.name, what, points - group.captive_open, act))
    group.captive_open = max(0, group.captive_open - points)
    group.captive_act = act
