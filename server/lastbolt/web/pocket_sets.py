"""The fastener sets of a phone's pocket, from the state of a job and its torque sheet; pure."""

from __future__ import annotations

from itertools import combinations

from ..journal.fastener_type import FastenerType
from ..plan.access import AccessMap, EdgeKind
from ..plan.step import fetches, new_pieces_for
from ..plan.undo import is_on
from ..plan.unreachable import set_left
from ..report.torque_asked import exact_words, source_words
from ..report.torque_sheet import SetRow
from ..state import Job
from ..state.covering import TRUSTED_STRENGTH, is_ready
from ..state.fastener_set import Act, FastenerSet, Hole, Reach
from ..state.look_alikes import is_look_alike
from . import pocket_wire_sets as wire
from .torque_wire import StageAsked

LEVELS: dict[Reach, wire.HoleLevel] = {
    Reach.EMPTY: "empty",
    Reach.PARKED: "parked",
    Reach.PLACED: "placed",
    Reach.SNUG: "snug",
    Reach.FINAL: "final",
}


def trace(act: Act | None) -> wire.Trace | None:
    """Give the trace of an entry."""
    return None if act is None else wire.Trace(entry=act.id, kind=act.kind, by=act.by, at=act.time)


def sets_of(job: Job, drawn: AccessMap, rows: dict[str, SetRow]) -> list[wire.PocketSet]:
    """Give every set of a job, the one last worked on first; `rows` are those of its torque sheet by set."""
    alike = _look_alikes(job)
    found = [_set(job, drawn, group, row=rows.get(group.name), alike=alike) for group in job.sets.values()]
    return sorted(found, key=lambda each: each.last.at.timestamp() if each.last else 0.0, reverse=True)


def _set(
    job: Job, drawn: AccessMap, group: FastenerSet, *, row: SetRow | None, alike: dict[str, list[str]]
) -> wire.PocketSet:
    said = group.described
    part = said.part if said else None
    return wire.PocketSet(
        set=group.name,
        part=part,
        n=group.n,
        type=str(said.type) if said and said.type else None,
        critical=group.critical,
        single_use=bool(said and said.single_use),
        captive=bool(said and said.captive),
        loosened_only=bool(said and said.loosened_only),
        gasketed=bool(said and said.gasketed),
        second_person=bool(said and said.second_person),
        photo_wanted=bool(said and said.photo_wanted),
        locking=said.locking if said else None,
        captive_open=group.captive_open,
        holes=_holes(group, row),
        torque=_torque(group, row),
        lies_in=[wire.Lying(container=f.container, place=f.place, n=f.n) for f in fetches(job, group.name)],
        bring=[*new_pieces_for(job, None, group.name), *new_pieces_for(job, part)],
        first=_first(job, drawn, part),
        lies_over=_lies_over(job, group.name),
        look_alikes=alike.get(group.name, []),
        left=set_left(group),
        last=trace(job.recorded.get(group.name)),
    )


def _holes(group: FastenerSet, row: SetRow | None) -> list[wire.PocketHole]:
    asked = {each.hole: each for each in row.holes} if row else {}
    found = []
    for number, hole in sorted(group.holes.items()):
        wanted = group.wanted(number)
        owes = asked.get(number)
        found.append(
            wire.PocketHole(
                hole=number,
                level=_level(hole),
                loose=hole.loose is not None or hole.undone is not None,
                type=str(wanted) if wanted else None,
                next_stage=owes.next_stage if owes else None,
                why=owes.why if owes else "",
            )
        )
    return found


def _level(hole: Hole) -> wire.HoleLevel:
    return LEVELS[hole.reach] if hole.touched else "untouched"


def _torque(group: FastenerSet, row: SetRow | None) -> wire.PocketTorque | None:
    spec = group.spec
    if spec is None:
        return None
    drawing = row.drawing if row else None
    return wire.PocketTorque(
        as_written=spec.as_written or "",
        unit=spec.unit,
        exact=exact_words(spec),
        hand_tight=spec.hand_tight,
        stages=[StageAsked.model_validate(s, from_attributes=True) for s in row.stages] if row else [],
        order=list(spec.order or (drawing.order if drawing else ())),
        is_order_suggested=not spec.order and drawing is not None,
        condition=spec.condition or "",
        source=source_words(spec),
        page=spec.page,
        revision=spec.revision,
        warnings=list(row.warnings) if row else [],
        superseded_by=row.superseded_by if row else "",
    )


def _first(job: Job, drawn: AccessMap, part: str | None) -> list[str]:
    """Name what is not on and must be: the part that the set holds, and what goes on before that part."""
    if part is None:
        return []
    before = [e.source for e in drawn.into.get(part, ()) if e.kind is EdgeKind.BEFORE and e.is_trusted]
    return [name for name in dict.fromkeys([*before, part]) if not is_ready(job, name, "placed")]


def _lies_over(job: Job, name: str) -> list[wire.LiesOver]:
    return [
        wire.LiesOver(part=e.part, need=e.need, on=is_on(job, e.part), route=e.route)
        for e in job.access
        if e.element == name and not e.shape_only and e.strength >= TRUSTED_STRENGTH
    ]


def _look_alikes(job: Job) -> dict[str, list[str]]:
    """Pair the sets whose wanted types a hand takes for one another."""
    found: dict[str, list[str]] = {}
    typed = [(group.name, _types(group)) for group in job.sets.values() if group.described]
    for (name, types), (other, others) in combinations(typed, 2):
        if any(is_look_alike(a, b) for a in types for b in others):
            found.setdefault(name, []).append(other)
            found.setdefault(other, []).append(name)
    return found


def _types(group: FastenerSet) -> list[FastenerType]:
    said = group.described
    return [t for t in (said.type, *said.types.values()) if t] if said else []
