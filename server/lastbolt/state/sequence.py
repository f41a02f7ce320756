"""In which order the holes of a set were pulled, stage by stage, in one entry or in several."""

from __future__ import annotations

from .fastener_set import FastenerSet, Pull, Turn, remembered


def order_asked(group: FastenerSet, stage: int) -> tuple[int, ...]:
    """Give the order in which a stage is to be pulled; empty where none is given or it does not matter."""
    spec = group.spec
    if spec is None or not spec.order_matters:
        return ()
    return tuple(number for number in spec.order if stage in group.stages_of(number))


def note_order(group: FastenerSet, pull: Pull) -> None:
    """Keep the order of a pull: of a whole pass in one entry, or of holes that had not had that stage yet.

    Holes that are pulled once more one by one tell nothing of the order of the joint.
    """
    named = pull.entry.holes
    stage = group.stage_meant(named[0] if named else 1, pull.entry.stage)
    asked = order_asked(group, stage)
    ordered = tuple(number for number in named if number in asked) if asked else named
    if not named:
        group.running.pop(stage, None)
        group.passes.pop(stage, None)
    elif len(ordered) >= len(asked):
        group.running.pop(stage, None)
        group.passes[stage] = [(ordered, pull)]
    else:
        turns = [_standing(group, stage, turn) for turn in group.running.get(stage, [])]
        fresh = tuple(n for n in ordered if n in group.holes and stage not in group.holes[n].pulls)
        group.running[stage] = [turn for turn in (*turns, (fresh, pull)) if turn[0]]
        if sum(len(numbers) for numbers, _ in group.running[stage]) >= len(asked):
            group.passes[stage] = group.running.pop(stage)


@remembered
def out_of_order(group: FastenerSet) -> tuple[tuple[int, ...], list[Pull]]:
    """Give the order of a last whole pass that was not the one asked, and its pulls; empty where none is."""
    for stage, turns in sorted(group.passes.items(), reverse=True):
        asked = order_asked(group, stage)
        if not asked:
            continue
        order = tuple(number for numbers, _ in turns for number in numbers if number in asked)
        stands = any(_standing(group, stage, turn)[0] for turn in turns)
        if len(order) == len(asked) and order != asked and stands:
            return order, list({pull.act.nth: pull for _, pull in turns}.values())
    return (), []


def _standing(group: FastenerSet, stage: int, turn: Turn) -> Turn:
    """Give what of a turn still stands."""
    numbers, pull = turn
    return tuple(number for number in numbers if _stands(group, stage, number, pull)), pull


def _stands(group: FastenerSet, stage: int, number: int, pull: Pull) -> bool:
    hole = group.holes.get(number)
    return hole is not None and hole.touched and hole.pulls.get(stage) is pull
