"""Where to look first: a score that sorts photo pairs; no pass mark, never by person (practice 8.6)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import prod

from ..state.covering import is_hidden, is_trusted
from ..state.fastener_set import FastenerSet
from ..state.job import Job
from ..state.look_alikes import is_look_alike

WEIGHTS = {
    "critical": 0.10,
    "look-alikes": 0.15,
    "each hole has its own": 0.05,
    "interrupted": 0.15,
    "changed hands": 0.10,
    "undone and done again": 0.10,
    "lost and found": 0.20,
    "written down late": 0.10,
    "no photo and no second person": 0.10,
    "hidden soon": 0.10,
}
"""How much each circumstance adds; all guesses, to be tuned by findings."""
WENT_WRONG = "went wrong before"


@dataclass(frozen=True, slots=True)
class Look:
    """An element worth a look: the higher the score the sooner, and why. It grades and passes nothing."""

    element: str
    score: float
    why: tuple[str, ...]


def where_to_look(job: Job, rates: Mapping[str, float] | None = None) -> tuple[Look, ...]:
    """Sort what was worked on by R = 1 - prod(1 - w); `rates`: element -> how often it went wrong before."""
    usual = rates or {}
    looks = [_look(job, name, usual.get(name)) for name in _worked_on(job)]
    return tuple(sorted((k for k in looks if k.why), key=lambda k: (-k.score, k.element)))


def _worked_on(job: Job) -> list[str]:
    known = job.sets.keys() | job.connections.keys() | job.parts.keys() | job.openings.keys()
    return sorted(known & job.touched.keys())


def _look(job: Job, name: str, rate: float | None) -> Look:
    why = list(dict.fromkeys(_circumstances(job, name)))
    weights = [WEIGHTS[reason] for reason in why]
    if rate is not None:
        why.append(WENT_WRONG)
        weights.append(rate)
    return Look(name, 1 - prod(1 - weight for weight in weights), tuple(why))


def _circumstances(job: Job, name: str) -> Iterator[str]:
    if name in job.sets:
        yield from _of_set(job, job.sets[name])
    elif name in job.connections:
        described = job.connections[name].described
        yield from ["critical"] * bool(described and described.critical)
    if name in job.interrupted:
        yield "interrupted"
    if not job.photos_of.get(name) and not job.second_checks.get(name):
        yield "no photo and no second person"
    if _is_hidden_soon(job, name):
        yield "hidden soon"


def _of_set(job: Job, group: FastenerSet) -> Iterator[str]:
    if group.critical:
        yield "critical"
    if _has_look_alikes(job, group):
        yield "look-alikes"
    if group.described and (group.described.types or (group.spec and group.spec.order)):
        yield "each hole has its own"
    if group.removed and group.fitted_by - {act.by for act in group.removed}:
        yield "changed hands"
    if _was_done_again(group):
        yield "undone and done again"
    if any(loss.set == group.name for loss in job.losses.values()):
        yield "lost and found"
    late = {act.id for act in job.late}
    acts = [
        *group.removed,
        *(h.fitted for h in group.holes.values() if h.fitted),
        *(p.act for p in group.tightened),
    ]
    if any(act.id in late for act in acts):
        yield "written down late"


def _has_look_alikes(job: Job, group: FastenerSet) -> bool:
    in_bag = any(c.look_alikes and group.name in c.sets_seen for c in job.containers.values())
    kinds = list(group.described.types.values()) if group.described else []
    return in_bag or any(is_look_alike(a, b) for i, a in enumerate(kinds) for b in kinds[i + 1 :])


def _was_done_again(group: FastenerSet) -> bool:
    """Tell whether it came out, or was pulled, after it had been tight."""
    first = min((pull.act.time for pull in group.tightened), default=None)
    out_again = first is not None and any(act.time > first for act in group.removed)
    stages = [
        (hole, pull.entry.stage) for pull in group.tightened for hole in pull.entry.holes or group.holes
    ]
    return out_again or len(stages) > len(set(stages))


def _is_hidden_soon(job: Job, name: str) -> bool:
    return not is_hidden(job, name) and any(
        edge.element == name and is_trusted(edge) and edge.part in job.parts and not job.parts[edge.part].on
        for edge in job.access
    )
