"""Whether the torques of a whole specification can be right for its thread; warns, never fills in."""

from dataclasses import dataclass

from lastbolt.torque.plausibility import Exemption, Plausibility, PlausibilityVerdict, judge_torque
from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.specification import Specification, Stage, StageKind, holes_of_stage
from lastbolt.torque.threads import MetricThread
from lastbolt.torque.torque_unit import TorqueUnit

_SILENT = frozenset({PlausibilityVerdict.QUIET, PlausibilityVerdict.NOT_JUDGED})
_ANGLES = frozenset({StageKind.ANGLE, StageKind.TORQUE_THEN_ANGLE})


@dataclass(frozen=True)
class OddStage:
    """A stage whose torque looks odd for the thread, and how."""

    stage: Stage
    plausibility: Plausibility


def find_odd_stages(
    specification: Specification,
    thread: MetricThread,
    *,
    class_name: str = "",
    exemptions: frozenset[Exemption] = frozenset(),
) -> tuple[OddStage, ...]:
    """The stages that look odd, by the middle of their windows without drag; empty when nothing does.

    Stages before the last torque of a hole are snug passes, and torques that an angle follows are meant to be
    low: neither is judged on the low side. Threads that cannot be judged give nothing.
    """
    odd = []
    for stage in specification.stages:
        if stage.window is None or stage.kind is StageKind.ANGLE:
            continue
        excused = exemptions | _find_exemptions(specification, stage)
        found = judge_torque(
            stage.window.middle_newton_metres,
            thread,
            class_name=class_name,
            exemptions=excused,
            unit=_unit_as_typed(stage.window.text),
        )
        if found.verdict not in _SILENT:
            odd.append(OddStage(stage, found))
    return tuple(odd)


def _find_exemptions(specification: Specification, stage: Stage) -> frozenset[Exemption]:
    """What excuses a low torque in this row: an angle in it or later, or a later torque for its holes."""
    holes = holes_of_stage(specification, stage)
    later = [
        row
        for row in specification.stages
        if row.number > stage.number and holes <= holes_of_stage(specification, row)
    ]
    found = set()
    if stage.kind in _ANGLES or any(row.kind in _ANGLES for row in later):
        found.add(Exemption.ANGLE_FOLLOWS)
    if any(row.window for row in later):
        found.add(Exemption.TORQUE_FOLLOWS)
    return frozenset(found)


def _unit_as_typed(text: str) -> TorqueUnit | None:
    written = parse_torque(text)
    return written.main.unit if isinstance(written, WrittenTorque) else None
