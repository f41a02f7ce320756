"""The machine's map and the way back to a thing, as the desk shows them; pure."""

from __future__ import annotations

from ..plan.access import AccessMap, EdgeKind, access_map, cycles
from ..plan.standing import standing
from ..plan.undo import UNKNOWN_PART_MINUTES, holding_sets, minutes_of, still_holds, undo_path
from ..state.job import Job
from . import review_wire
from .forms import forms_of


def access_graph(state: Job) -> review_wire.AccessGraph:
    """Give everything on the map with how it stands; what holds a part is said with the thing itself."""
    drawn = access_map(state)
    nodes = [
        review_wire.AccessNode(
            name=each.name,
            kind=drawn.nodes[each.name][0].value,
            state=each.state.value,
            words=each.words,
            forms=forms_of(each.words),
            hidden=each.hidden,
            holds=_held_by(drawn, each.name),
        )
        for each in standing(state, drawn)
    ]
    edges = [
        review_wire.AccessEdge(
            kind="hides" if edge.kind is EdgeKind.HIDES else "before",
            source=edge.source,
            target=edge.target,
            route=edge.route,
            need=edge.need,
            trusted=edge.is_trusted,
        )
        for edge in drawn.edges
        if edge.kind is not EdgeKind.HOLDS
    ]
    against = [cycle.sentence for cycle in cycles(drawn)]
    return review_wire.AccessGraph(nodes=nodes, edges=edges, contradictions=against, forms=forms_of(*against))


def _held_by(drawn: AccessMap, name: str) -> str | None:
    edges = drawn.out_of.get(name, ())
    return next((edge.target for edge in edges if edge.kind is EdgeKind.HOLDS), None)


def way_back(state: Job, element: str) -> review_wire.UndoPath:
    """Give the cheapest way back to an element, part by part."""
    path, drawn = undo_path(state, element), access_map(state)
    return review_wire.UndoPath(
        element=element,
        sentence=path.sentence,
        forms=forms_of(path.sentence),
        steps=[_step(state, drawn, part) for part in path.parts],
        minutes=path.minutes,
        spent=[*path.renewals, *path.single_use],
        torques=[f"{name}: {n}" for name, n in path.torques],
        openings=list(path.openings),
        again=list(path.again),
        in_the_way=[f"{each.part} (over {each.element})" for each in path.in_the_way],
        proven=path.proven,
        contradiction=path.contradiction,
    )


def _step(state: Job, drawn: AccessMap, part: str) -> review_wire.UndoStep:
    minutes = minutes_of(state, part)
    holders = [name for name in drawn.holders(part) if still_holds(state, name)]
    return review_wire.UndoStep(
        part=part,
        undone=list(dict.fromkeys([*holders, *(group.name for group in holding_sets(state, part))])),
        minutes=UNKNOWN_PART_MINUTES if minutes is None else minutes,
        guessed=minutes is None,
    )
