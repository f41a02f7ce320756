"""What was pulled on each hole of a set, what may be claimed for it, and what is still open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from ..checks.torque_out_of_range import ROUNDING_NM
from ..journal.fasteners import FastenersTightened
from ..state import elements
from ..state.fastener_set import FastenerSet, Hole, Pull, Reach
from ..torque.confirmation import (
    Confirmation,
    Method,
    judge_confirmation,
    method_of_wrench,
)
from ..torque.specification import Specification, Stage, StageKind, stage_for_hole, window_with_drag
from ..torque.wrench import Wrench
from ..units import Degrees, NewtonMetres
from .torque_asked import stage_ends
from .torque_wrenches import registered_wrench

METHODS = {
    "click": Method.CLICK,
    "dial": Method.INDICATED,
    "angle": Method.ANGLE,
    "feel": Method.FEEL,
    "by-design": Method.HAND_TIGHT,
}
HoleState = Literal["open", "done", "untouched"]
UNTOUCHED = "Not touched in this job."


@dataclass(frozen=True, slots=True)
class StagePulled:
    """One stage that stands pulled on a hole: what may be claimed, with which wrench, by whom, what is wrong.

    `value_nm` is what the wrench was set to or showed.
    """

    stage: int
    said: str
    value_nm: float | None
    wrench: str
    by: str
    at: datetime
    fault: str


@dataclass(frozen=True, slots=True)
class HoleRow:
    """One hole: its state, the stage that comes next (None when done or untouched), why, and its pulls."""

    hole: int
    state: HoleState
    next_stage: int | None
    why: str
    pulls: tuple[StagePulled, ...]


def hole_rows(
    group: FastenerSet, specification: Specification, wrenches: Mapping[str, elements.Wrench]
) -> tuple[HoleRow, ...]:
    """Give every hole of a set, the open ones first."""
    rows = [_row(group, specification, number, wrenches=wrenches) for number in specification.holes]
    return tuple(sorted(rows, key=lambda row: (row.state != "open", row.state == "untouched", row.hole)))


def _row(
    group: FastenerSet, specification: Specification, number: int, *, wrenches: Mapping[str, elements.Wrench]
) -> HoleRow:
    hole = group.holes.get(number)
    if hole is None or not hole.touched:
        return HoleRow(number, "untouched", None, UNTOUCHED, ())
    pulls = tuple(
        _pulled(
            pull,
            stage,
            asked=_asked(group, specification, hole=number, pull=pull, stage=stage),
            tool=wrenches.get(pull.entry.wrench or ""),
        )
        for stage, pull in sorted(hole.pulls.items())
    )
    stage, why = _open_stage(group, hole, pulls)
    return HoleRow(number, "done" if stage is None else "open", stage, why, pulls)


def _open_stage(group: FastenerSet, hole: Hole, pulls: tuple[StagePulled, ...]) -> tuple[int | None, str]:
    """Give the first stage that a hole still owes, and why it does."""
    if hole.reach is Reach.EMPTY:
        return 1, "Empty."
    if hole.reach is Reach.PARKED:
        return 1, "Put back only to keep it."
    if hole.undone:
        return 1, "Undone since it was tightened."
    if hole.loose:
        return 1, "Loosened."
    standing = {pull.stage: pull for pull in pulls}
    for stage in group.stages_of(hole.number):
        if stage not in standing:
            return stage, f"Stage {stage} is not pulled." if group.stage_count > 1 else "Not pulled."
        if standing[stage].fault:
            return stage, standing[stage].fault
    return None, ""


def _asked(
    group: FastenerSet, specification: Specification, *, hole: int, pull: Pull, stage: int
) -> Stage | None:
    """Give what a stage asks of a hole, drag added, as far as the pull is held to it.

    An end that nobody entered holds nothing, nor does what the check lets pass as rounding.
    """
    asked = stage_for_hole(specification, stage, hole=hole)
    if asked is None or asked.window is None or pull.entry.value_nm is None:
        return asked
    window = window_with_drag(asked.window, specification.drag_newton_metres)
    value = NewtonMetres(pull.entry.value_nm)
    least, most = stage_ends(group, stage)
    low, high = window.low_newton_metres, window.high_newton_metres
    if least is None or value >= low - ROUNDING_NM:
        low = min(low, value)
    if most is None or value <= high + ROUNDING_NM:
        high = max(high, value)
    return replace(asked, window=replace(window, low_newton_metres=low, high_newton_metres=high))


def _pulled(pull: Pull, stage: int, *, asked: Stage | None, tool: elements.Wrench | None) -> StagePulled:
    entry = pull.entry
    wrench = registered_wrench(tool)
    confirmation = Confirmation(
        holes=entry.holes,
        stage=stage,
        method=_method(entry, wrench),
        value_newton_metres=None if entry.value_nm is None else NewtonMetres(entry.value_nm),
        angle_degrees=None if entry.angle_deg is None else Degrees(entry.angle_deg),
        wrench=wrench,
    )
    outcome = judge_confirmation(confirmation, asked or Stage(stage, StageKind.TORQUE))
    length = entry.adapter_length_mm
    through = f", set on the wrench, through an adapter of {length:g} mm" if length else ""
    return StagePulled(
        stage=stage,
        said=outcome.said + through,
        value_nm=entry.value_nm,
        wrench=entry.wrench or "",
        by=entry.by,
        at=pull.act.time,
        fault=outcome.sentence,
    )


def _method(entry: FastenersTightened, wrench: Wrench | None) -> Method:
    """Give how a pull was felt; where nobody said, what the wrench allows."""
    said = "method" in entry.model_fields_set
    return METHODS[entry.method] if said or wrench is None else method_of_wrench(wrench)
