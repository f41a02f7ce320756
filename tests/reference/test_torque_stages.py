"""Multi-stage tightenings printed in service manuals, replayed; read at charm.li and myvehicle.help."""

import pytest

from lastbolt.torque.confirmation import Confirmation, ConfirmationVerdict, Method, judge_holes
from lastbolt.torque.specification import (
    Specification,
    Stage,
    StageKind,
    TorqueWindow,
    find_mistakes,
    stage_numbers,
)
from lastbolt.torque.stage_history import StageDone, find_skipped_stages, next_stage, open_stages


def pull(number: int, value: float, holes: range | None = None, kind: StageKind = StageKind.TORQUE) -> Stage:
    window = TorqueWindow(value * 0.95, value * 1.05)
    return Stage(number, kind, window, holes=None if holes is None else frozenset(holes))


def turn(number: int, degrees: float) -> Stage:
    return Stage(number, StageKind.ANGLE, angle_degrees=degrees, holes=frozenset(range(1, 11)))


V10 = Specification(
    "V10 inlet: 47 then 122 N·m on 1–12, then the valley bolts 11 N·m",
    tuple(range(1, 17)),
    (pull(1, 47, range(1, 13)), pull(2, 122, range(1, 13)), pull(3, 11, range(13, 17))),
)
V8 = Specification(
    "V8 head: 27, 27 again, 14 on 11–14, +90°, +90°, 26 on 11–14",
    tuple(range(1, 15)),
    (
        pull(1, 27, range(1, 11)),
        pull(2, 27, range(1, 11), StageKind.RECHECK),
        pull(3, 14, range(11, 15)),
        turn(4, 90),
        turn(5, 90),
        pull(6, 26, range(11, 15)),
    ),
)
V6 = Specification(
    "V6 head: 61, 88, 88 again, + a quarter turn",
    tuple(range(1, 9)),
    (
        pull(1, 61),
        pull(2, 88),
        pull(3, 88, kind=StageKind.RECHECK),
        Stage(4, StageKind.ANGLE, angle_degrees=90),
    ),
)
STRETCH = Specification(
    "head: 20, 35, 45 + 90°, +90°, all bolts new",
    tuple(range(1, 11)),
    (
        pull(1, 20),
        pull(2, 35),
        Stage(3, StageKind.TORQUE_THEN_ANGLE, TorqueWindow(43, 47), 90),
        Stage(4, StageKind.ANGLE, angle_degrees=90),
    ),
    is_new_fastener_required=True,
)
ALL = [V10, V8, V6, STRETCH]


def whole_history(specification: Specification) -> list[StageDone]:
    numbers = sorted({stage.number for stage in specification.stages})
    return [
        StageDone(
            number,
            tuple(hole for hole in specification.holes if number in stage_numbers(specification, hole)),
        )
        for number in numbers
    ]


@pytest.mark.parametrize("specification", ALL, ids=lambda one: one.identity)
def test_a_printed_procedure_is_well_formed_and_runs_through(specification: Specification) -> None:
    assert find_mistakes(specification) == ()
    history = whole_history(specification)
    assert find_skipped_stages(specification, history) == ()
    assert open_stages(specification, history) == {}
    for done in range(len(history)):
        assert next_stage(specification, history[:done]) == history[done].number


@pytest.mark.parametrize("specification", [V8, V6, STRETCH], ids=lambda one: one.identity)
def test_leaving_out_a_middle_stage_is_found_for_every_hole_it_was_for(specification: Specification) -> None:
    history = whole_history(specification)
    (left_out,) = history[1:2]
    skipped = find_skipped_stages(specification, history[:1] + history[2:])
    assert {skip.hole for skip in skipped} == set(left_out.holes)
    assert all(left_out.number in skip.missing for skip in skipped)


def test_valley_bolts_do_not_wait_for_stages_that_are_not_theirs() -> None:
    assert stage_numbers(V10, 13) == (3,)
    assert find_skipped_stages(V10, [StageDone(3, (13, 14, 15, 16))]) == ()


def test_two_separate_turns_are_not_one_turn_of_180() -> None:
    found = judge_holes(Confirmation((1,), 4, Method.ANGLE, angle_degrees=180), V8)
    assert found[1].verdict is ConfirmationVerdict.ANGLE_OFF


def test_torque_then_angle_needs_both() -> None:
    only_torque = judge_holes(Confirmation((1,), 3, Method.CLICK, 45), STRETCH)
    both = judge_holes(Confirmation((1,), 3, Method.CLICK, 45, 93), STRETCH)
    assert only_torque[1].verdict is ConfirmationVerdict.NO_VALUE
    assert both[1].verdict is ConfirmationVerdict.IN_RANGE
