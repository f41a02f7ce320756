"""Open debts of a job as steps: what to do, with which bags and which new pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from ..finding import pieces
from ..label_code import printed
from ..said import said
from ..state.covering import SIGNED_WORK
from ..state.fastener_set import FastenerSet, Hole, Reach
from ..state.job import Job, touched_since

AWAY = frozenset({"SENT OUT", "ON ORDER"})


@dataclass(frozen=True, slots=True)
class Fetch:
    """A bag or tray to fetch, where it lies, and how many pieces are in it."""

    container: str
    place: str | None
    n: int


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do: `kind` is a verb, `part` must be on first, `waits_for` says why not yet."""

    kind: str
    element: str
    sentence: str
    why: str = ""
    fetch: tuple[Fetch, ...] = ()
    bring: tuple[str, ...] = ()
    part: str | None = None
    zone: str | None = None
    taken_apart: datetime | None = None
    minutes: float | None = None
    waits_for: str = ""


def open_steps(job: Job) -> tuple[Step, ...]:
    """List everything that is still to do, in no order."""
    return (
        *_of_sets(job),
        *_of_parts(job),
        *_of_connections(job),
        *_of_openings(job),
        *_of_renewals(job),
        *_of_holds(job),
        *_of_the_end(job),
    )


def fetches(job: Job, set_name: str) -> tuple[Fetch, ...]:
    """Give the bags and trays that hold pieces of a set."""
    return tuple(
        Fetch(name, container.place, n)
        for name, container in job.containers.items()
        if (n := job.ledger.balance(name, set_name))
    )


def zone_of(job: Job, part: str | None) -> str | None:
    """Give the zone of a part, if somebody said it."""
    here = job.parts.get(part or "")
    return here.described.zone_name if here and here.described else None


def new_pieces_for(job: Job, part: str | None, set_name: str | None = None) -> tuple[str, ...]:
    """Name the seals and other new pieces that a part or set still waits for, with how many."""
    return tuple(
        f"{r.needed.n - r.fitted} x {r.name}"
        for r in job.renewals.values()
        if r.needed
        and not r.needed.reuse_allowed
        and r.fitted < r.needed.n
        and ((part and r.needed.under == part) or (set_name and r.needed.set == set_name))
    )


def _of_sets(job: Job) -> Iterator[Step]:
    for group in job.sets.values():
        step = _set_step(job, group)
        if step is not None:
            yield step


def _set_step(job: Job, group: FastenerSet) -> Step | None:
    """Give the nearest step of a set: fit what is out, else tighten what is in, else latch."""
    empty = group.of_reach(Reach.EMPTY, Reach.PARKED)
    counts = job.level >= SIGNED_WORK or not group.has_value
    low = group.of_reach(Reach.PLACED, Reach.SNUG) if counts else []
    loose = [h for h in group.holes.values() if h.loose or h.undone]
    part = group.described.part if group.described else None
    apart = max((act.time for act in group.removed), default=None)
    fetch: tuple[Fetch, ...] = ()
    if empty:
        fetch = fetches(job, group.name)
        form = "Fit {fasteners} of {set} from {containers}." if fetch else "Fit {fasteners} of {set}."
        n, containers = pieces(len(empty), "fastener"), ", ".join(printed(f.container) for f in fetch)
        verb, sentence = "fit", said(form, fasteners=n, set=group.name, containers=containers)
    elif low or loose:
        n = pieces(len({*_numbers(low), *_numbers(loose)}), "hole")
        verb, sentence = "tighten", said("Tighten {set}: {holes}.", set=group.name, holes=n)
    elif group.captive_open:
        n = pieces(group.captive_open, "point")
        verb, sentence = "latch", said("Latch {points} of {set}; look at its flag.", points=n, set=group.name)
    else:
        return None
    return Step(
        verb,
        group.name,
        sentence,
        fetch=fetch,
        bring=new_pieces_for(job, None, group.name),
        part=part,
        zone=zone_of(job, part),
        taken_apart=apart,
        minutes=group.described.minutes if group.described else None,
    )


def _numbers(holes: list[Hole]) -> set[int]:
    return {hole.number for hole in holes}


def _of_parts(job: Job) -> Iterator[Step]:
    for part in job.parts.values():
        if part.on:
            continue
        away = (part.place or "").upper() in AWAY
        lies = "Put {part} on. It lies: {place}." if part.place and not away else "Put {part} on."
        yield Step(
            "put on",
            part.name,
            said(lies, part=part.name, place=part.place),
            bring=new_pieces_for(job, part.name),
            zone=zone_of(job, part.name),
            taken_apart=part.off_at.time if part.off_at else None,
            minutes=part.described.minutes if part.described else None,
            waits_for=said("it is not here ({place})", place=part.place) if away else "",
        )


def _of_connections(job: Job) -> Iterator[Step]:
    for here in job.connections.values():
        part = here.described.part if here.described else None
        if here.apart is not None:
            form = "Connect {connection}, pull to try it, tighten its clamp."
            words = said(form, connection=here.name)
            yield Step(
                "connect", here.name, words, part=part, zone=zone_of(job, part), taken_apart=here.apart.time
            )
        elif here.unsure is not None:
            words = said("Pull {connection} to try it and tighten its clamp.", connection=here.name)
            yield Step(
                "try", here.name, words, part=part, zone=zone_of(job, part), taken_apart=here.unsure.time
            )


def _of_openings(job: Job) -> Iterator[Step]:
    for opening in job.openings.values():
        if opening.open_since is None:
            continue
        inside = [f"{i.n} x {i.name}" for i in job.items.values() if i.n > 0 and i.opening == opening.name]
        covered = "Close {opening}: take off {covers}, look inside, shut it."
        form = covered if opening.covers else "Close {opening}: look inside, shut it."
        words = said(form, opening=opening.name, covers=pieces(opening.covers, "cover"))
        if inside:
            words = said("Take out {items}. {then}", items=", ".join(inside), then=words)
        zone = opening.described.zone_name if opening.described else None
        yield Step("close", opening.name, words, zone=zone, taken_apart=opening.open_since.time)


def _of_renewals(job: Job) -> Iterator[Step]:
    for renewal in job.renewals.values():
        need = renewal.needed
        if need is None or need.reuse_allowed or renewal.fitted >= need.n:
            continue
        if need.under and (need.under not in job.parts or job.parts[need.under].on):
            continue
        seen = "See the old one off, then fit {pieces} of {renewal}."
        n = pieces(need.n - renewal.fitted, "new piece")
        words = said(
            seen if need.see_old_off else "Fit {pieces} of {renewal}.", pieces=n, renewal=renewal.name
        )
        part = job.parts.get(need.under or "")
        apart = part.off_at.time if part and part.off_at else None
        bring = (f"{need.n - renewal.fitted} x {renewal.name}",)
        yield Step(
            "renew", renewal.name, words, bring=bring, zone=zone_of(job, need.under), taken_apart=apart
        )


def _of_holds(job: Job) -> Iterator[Step]:
    """Give the looks that a part which is off waits for."""
    for hold in job.holds.values():
        part = job.parts.get(hold.before)
        if hold.released is None and part is not None and not part.on:
            nobody = "Call who must look: {hold}, before {part} goes on."
            form = "Call the {role}: {hold}, before {part} goes on." if hold.role_wanted else nobody
            words = said(form, role=said(str(hold.role_wanted)), hold=hold.name, part=hold.before)
            apart = part.off_at.time if part.off_at else None
            yield Step("call", hold.name, words, zone=zone_of(job, hold.before), taken_apart=apart)


def _of_the_end(job: Job) -> Iterator[Step]:
    """Give what comes last: settings, fluids, energy, tests."""
    for setting in job.settings.values():
        if setting.found and not setting.left:
            yield Step(
                "set",
                setting.name,
                said(
                    "Set {setting} back to {before}, or to the manual's value.",
                    setting=setting.name,
                    before=f"{setting.found[1]:g}",
                ),
            )
    for fluid in job.fluids.values():
        if fluid.drained and (not fluid.is_back or fluid.is_unchecked):
            form = "Fill {fluid} ({litres} L to go), check level and leaks. DO NOT START before."
            words = said(form, fluid=fluid.name, litres=f"{fluid.short_l:g}")
            yield Step("fill", fluid.name, words, taken_apart=fluid.drained.time)
    for point in job.isolations.values():
        if point.applied is not None:
            form = "Restore {point}: its holder ({holder}) looks round and takes the tag off."
            words = said(form, point=point.name, holder=point.holder)
            yield Step("restore", point.name, words, taken_apart=point.applied.time)
    for test in job.tests.values():
        if test.run is None or not test.passed or touched_since(job, test):
            yield Step(
                "test", test.name, said("Run {test}, with hands, hair and people clear.", test=test.name)
            )
