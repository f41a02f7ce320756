"""How each thing on the access map stands now: whole, off, half way, back, or shut in unfinished."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from ..said import said
from ..state.covering import is_hidden, is_ready, is_trusted, need_at
from ..state.fastener_set import Act, Reach, was_touched
from ..state.job import Job
from .access import AccessMap
from .unreachable import what_a_set_owes, what_is_left


class State(StrEnum):
    """Where a thing is between whole and whole again."""

    UNTOUCHED = "untouched"
    OFF = "off"
    HALF = "half"
    BACK = "back"
    BURIED = "buried"


@dataclass(frozen=True, slots=True)
class Standing:
    """One thing: its state, in words what it owes or where it lies, and whether anything on lies over it."""

    name: str
    state: State
    words: str
    hidden: bool
    act: Act | None = None


def standing(job: Job, drawn: AccessMap) -> tuple[Standing, ...]:
    """Say of everything on the map how it stands, in the map's order."""
    return tuple(_standing(job, name) for name in drawn.nodes)


def _standing(job: Job, name: str) -> Standing:
    state, words, act = _seen_alone(job, name)
    buried = job.buried.get(name)
    need = need_at(job.level, buried.edge.need) if buried is not None else ""
    if buried is not None and is_trusted(buried.edge) and not is_ready(job, name, need):
        left = what_is_left(job, name, need)
        words = said("under {part}: {left}", part=buried.part, left=left)
        return Standing(name, State.BURIED, words, hidden=True, act=buried.act)
    return Standing(name, state, words, is_hidden(job, name), act)


def _seen_alone(job: Job, name: str) -> tuple[State, str, Act | None]:
    if name in job.parts:
        return _part(job, name)
    if name in job.sets:
        return _set(job, name)
    if name in job.connections:
        return _connection(job, name)
    if name in job.openings:
        opening = job.openings[name]
        if opening.open_since is not None:
            form = "open, {n} of {all} covered"
            return State.OFF, said(form, n=opening.covers, all=opening.mouths), opening.open_since
        return (State.BACK, said("shut"), opening.closed) if opening.closed else (State.UNTOUCHED, "", None)
    return State.UNTOUCHED, "", job.touched.get(name)


def _part(job: Job, name: str) -> tuple[State, str, Act | None]:
    part = job.parts[name]
    if not part.on:
        words = said("off, lies: {place}", place=part.place) if part.place else said("off")
        return State.OFF, words, part.off_at
    return (State.BACK, said("back on"), part.on_at) if part.on_at else (State.UNTOUCHED, "", None)


def _connection(job: Job, name: str) -> tuple[State, str, Act | None]:
    here = job.connections[name]
    if here.apart is not None:
        return State.OFF, said("apart"), here.apart
    if here.unsure is not None:
        return State.HALF, said("together, not pulled or clamped"), here.unsure
    return (State.BACK, said("together"), here.made) if here.made else (State.UNTOUCHED, "", None)


def _set(job: Job, name: str) -> tuple[State, str, Act | None]:
    group = job.sets[name]
    act = job.touched.get(name)
    if not was_touched(group) and not group.captive_open:
        return State.UNTOUCHED, "", act
    left = what_a_set_owes(group)
    if not left:
        return State.BACK, said("tight") if group.has_value else said("in"), act
    touched = [hole for hole in group.holes.values() if hole.touched]
    out = bool(touched) and all(hole.reach is Reach.EMPTY for hole in touched)
    return State.OFF if out else State.HALF, left, act
