"""What becomes unreachable when a part goes on, and what under it is not ready yet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import are, items, pieces
from ..said import joined, said
from ..state.covering import NEED_WORDS, is_ready, need_at
from ..state.fastener_set import FastenerSet, Reach
from ..state.job import Job
from .access import AccessMap, EdgeKind, access_map
from .undo import is_on


@dataclass(frozen=True, slots=True)
class Shut:
    """One thing under a part: the level it needs, whether it has it, and in words what is left to do."""

    element: str
    need: str
    ready: bool
    left: str = ""


@dataclass(frozen=True, slots=True)
class Unreachable:
    """What a part shuts away when it goes on.

    `shut` lists what nobody reaches afterwards; `owed` says in sentences what else is due before it goes on;
    `maybe` names what is only guessed to lie under it.
    """

    part: str
    shut: tuple[Shut, ...] = ()
    owed: tuple[str, ...] = ()
    maybe: tuple[str, ...] = ()


def unreachable_after(job: Job, part: str, *, drawn: AccessMap | None = None) -> Unreachable:
    """Say what fitting a part would shut away; nothing when it is on already.

    `drawn` is the job's access map, for who asks about many parts.
    """
    if part in job.parts and job.parts[part].on:
        return Unreachable(part)
    drawn = drawn or access_map(job)
    under = dict.fromkeys(
        e.target for e in drawn.out_of.get(part, ()) if e.kind is EdgeKind.HIDES and e.is_trusted
    )
    shut = [name for name in under if _becomes_hidden(job, drawn.routes(name), part)]
    guessed = [e.target for e in drawn.out_of.get(part, ()) if not e.is_trusted]
    return Unreachable(
        part,
        tuple(_shut(job, part, name) for name in shut),
        tuple(_owed(job, part)),
        tuple(name for name in dict.fromkeys(guessed) if name not in shut),
    )


def _becomes_hidden(job: Job, ways: dict[str | None, tuple[str, ...]], part: str) -> bool:
    return all(any(p == part or is_on(job, p) for p in parts) for parts in ways.values())


def _shut(job: Job, part: str, element: str) -> Shut:
    needs = [e.need for e in job.access if e.part == part and e.element == element and not e.shape_only]
    need = need_at(job.level, needs[-1] if needs else "placed")
    ready = is_ready(job, element, need)
    return Shut(element, need, ready, "" if ready else what_is_left(job, element, need))


def what_is_left(job: Job, element: str, need: str = "final") -> str:
    """Say in words what an element still owes before it is at a level."""
    if element in job.sets:
        return set_left(job.sets[element]) or _not_yet(element, need)
    if element in job.connections:
        apart = job.connections[element].apart is not None
        return said(
            "{thing} is apart" if apart else "{thing} was joined and not pulled or clamped", thing=element
        )
    if element in job.openings:
        return said("{thing} stands open", thing=element)
    if element in job.parts and not job.parts[element].on:
        return said("{thing} is off", thing=element)
    if element in job.tests:
        return said("{test} was not run", test=element)
    return _not_yet(element, need)


def _not_yet(element: str, need: str) -> str:
    return said("{thing} is not {need}", thing=element, need=said(NEED_WORDS[need]))


def set_left(group: FastenerSet) -> str:
    """Say in words what a set still owes, with its name; empty when all of it is tight."""
    owed = what_a_set_owes(group)
    return said("{set}: {what}", set=group.name, what=owed) if owed else ""


def what_a_set_owes(group: FastenerSet) -> str:
    """Say in words what a set still owes; empty when all of it is tight."""
    empty, parked = len(group.of_reach(Reach.EMPTY)), len(group.of_reach(Reach.PARKED))
    loose = sum(1 for h in group.holes.values() if h.loose or h.undone)
    fitted = [h for h in group.holes.values() if h.touched and not h.loose and not h.undone]
    hand = sum(1 for h in fitted if h.reach in (Reach.PLACED, Reach.SNUG))
    owed = (
        ("{holes} {are} empty", empty),
        ("{n} {are} only parked", parked),
        ("{n} {are} loose", loose),
        ("{n} {are} fitted and not tight", hand),
        ("{n} captive points are released", group.captive_open),
    )
    words = [said(form, n=n, holes=pieces(n, "hole"), are=are(n)) for form, n in owed if n]
    return joined(", ", words) if words else ""


def _owed(job: Job, part: str) -> Iterator[str]:
    """Say what else is due before a part goes on: what must be on first, seals, holds, things inside."""
    for edge in job.access:
        if edge.shape_only and edge.part == part and not is_on(job, edge.element):
            yield said("{thing} must be on before {part}.", thing=edge.element, part=part)
    for renewal in job.renewals.values():
        need = renewal.needed
        if need and need.under == part and not need.reuse_allowed and renewal.fitted < need.n:
            yield said(
                "{renewal}: {fitted} of {n} renewed.", renewal=renewal.name, fitted=renewal.fitted, n=need.n
            )
    for hold in job.holds.values():
        if hold.before == part and hold.released is None and not hold.witness_only:
            yield said("{hold}: nobody has looked yet.", hold=hold.name)
    under = {edge.element for edge in job.access if edge.part == part}
    for item in job.items.values():
        if item.n > 0 and item.opening in under:
            form = "{items} {are} still in {opening}."
            yield said(form, items=items(item.n, item.name), are=are(item.n), opening=item.opening)
