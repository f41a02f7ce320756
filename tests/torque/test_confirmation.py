import pytest

from lastbolt.torque.adapter import Adapter
from lastbolt.torque.confirmation import (
    Confirmation,
    ConfirmationVerdict,
    Method,
    judge_confirmation,
    judge_holes,
    judge_set,
    method_of_wrench,
)
from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.specification import Specification, Stage, StageKind, TorqueWindow, window_from_torque
from lastbolt.torque.wrench import Wrench, WrenchKind

CLICK = Wrench("W1", WrenchKind.CLICK, 100.0, 20.0)
DIAL = Wrench("W2", WrenchKind.INDICATING, 100.0, 20.0)
STAGE = Stage(1, StageKind.TORQUE, TorqueWindow(22.0, 26.0, "22–26 N·m"))
ANGLE = Stage(2, StageKind.ANGLE, angle_degrees=90.0)


def judge(value: float | None, wrench: Wrench | None = CLICK, **fields: object):  # type: ignore[no-untyped-def]
    method = method_of_wrench(wrench) if wrench else Method.FEEL
    return judge_confirmation(Confirmation((1, 2), 1, method, value, wrench=wrench, **fields), STAGE)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (22.0, ConfirmationVerdict.IN_RANGE),
        (26.0, ConfirmationVerdict.IN_RANGE),
        (21.9, ConfirmationVerdict.BELOW),
        (26.1, ConfirmationVerdict.ABOVE),
        (None, ConfirmationVerdict.NO_VALUE),
    ],
)
def test_the_ends_belong_to_the_range(value: float | None, verdict: ConfirmationVerdict) -> None:
    assert judge(value).verdict is verdict


def test_a_click_says_reached_and_a_dial_says_a_value() -> None:
    assert judge(24.0).said == "reached 24 N·m (wrench ± 0.96 N·m)"
    assert judge(24.3, DIAL).said == "24.3 ± 0.97 N·m"
    assert judge(24.0, None).said == "24 N·m, by feel"
    assert judge(None, None).said == "by feel"


def test_the_wrench_reaching_over_an_end_is_a_note_not_a_fault() -> None:
    near, inside = judge(25.8), judge(24.0)
    assert near.verdict is ConfirmationVerdict.IN_RANGE
    assert near.is_near_edge
    assert not inside.is_near_edge
    assert near.uncertainty_newton_metres == pytest.approx(25.8 * 0.04)


def test_too_much_asks_whether_it_stretched() -> None:
    assert "stretched?" in judge(40.0).sentence


def test_an_adapter_is_taken_into_account() -> None:
    found = judge(20.0, adapter=Adapter(300, 60))
    assert found.torque_newton_metres == pytest.approx(24)
    assert found.verdict is ConfirmationVerdict.IN_RANGE
    assert found.said.startswith("reached 24 N·m")


def test_drag_moves_the_range() -> None:
    confirmation = Confirmation((1,), 1, Method.CLICK, 24.0)
    assert (
        judge_confirmation(confirmation, STAGE, drag_newton_metres=3.0).verdict is ConfirmationVerdict.BELOW
    )
    assert (
        judge_confirmation(confirmation, STAGE, drag_newton_metres=1.0).verdict
        is ConfirmationVerdict.IN_RANGE
    )


@pytest.mark.parametrize(("turned", "verdict"), [
    (85.0, ConfirmationVerdict.IN_RANGE), (95.0, ConfirmationVerdict.IN_RANGE),
    (84.0, ConfirmationVerdict.ANGLE_OFF), (96.0, ConfirmationVerdict.ANGLE_OFF), (None, ConfirmationVerdict.NO_VALUE),
])  # fmt: skip
def test_an_angle_may_be_five_degrees_off(turned: float | None, verdict: ConfirmationVerdict) -> None:
    found = judge_confirmation(Confirmation((1,), 2, Method.ANGLE, angle_degrees=turned), ANGLE)
    assert found.verdict is verdict
    assert found.said == ("angle" if turned is None else f"angle, {turned:g}°")


@pytest.mark.parametrize("text", ["35 lbf ft", "22–26 lbf·in", "2 kgf·m", "120 cN·m", "95 in-lb"])
def test_a_value_typed_as_the_manual_prints_it_is_in_range(text: str) -> None:
    written = parse_torque(text)
    assert isinstance(written, WrittenTorque)
    stage = Stage(1, StageKind.TORQUE, window_from_torque(written, 0.0))
    for exact in (written.main.low_newton_metres, written.main.high_newton_metres):
        found = judge_confirmation(Confirmation((1,), 1, Method.CLICK, float(exact)), stage)
        assert found.verdict is ConfirmationVerdict.IN_RANGE


def test_an_assumed_tolerance_is_told() -> None:
    stage = Stage(1, StageKind.TORQUE, TorqueWindow(38.0, 42.0, "40 N·m", True))
    assert "assumed" in judge_confirmation(Confirmation((1,), 1, Method.CLICK, 30.0), stage).sentence


def test_each_hole_of_a_pass_is_judged_by_its_own_row() -> None:
    specification = Specification(
        "HEAD",
        (1, 2, 3),
        (
            Stage(1, StageKind.TORQUE, TorqueWindow(22.0, 26.0), holes=frozenset({1})),
            Stage(1, StageKind.TORQUE, TorqueWindow(8.0, 10.0), holes=frozenset({2})),
        ),
    )
    found = judge_holes(Confirmation((1, 2, 3), 1, Method.CLICK, 24.0), specification)
    assert {hole: outcome.verdict for hole, outcome in found.items()} == {
        1: ConfirmationVerdict.IN_RANGE,
        2: ConfirmationVerdict.ABOVE,
        3: ConfirmationVerdict.NOT_ASKED,
    }


def test_a_set_is_judged_by_the_last_pull_of_each_final_stage() -> None:
    final = Stage(2, StageKind.TORQUE, TorqueWindow(22.0, 26.0), holes=frozenset({1, 2}))
    specification = Specification("PUMP", (1, 2, 3, 4), (Stage(1, StageKind.TORQUE, TorqueWindow(9.0, 11.0),
                                                               holes=frozenset({1, 2, 3})), final))  # fmt: skip
    pulls = [
        Confirmation((1, 2, 3), 1, Method.CLICK, 10.0),
        Confirmation((1,), 2, Method.CLICK, 30.0),
        Confirmation((1,), 2, Method.CLICK, 24.0),
    ]
    found = judge_set(specification, pulls)
    assert set(found) == {1, 2, 3}
    assert [outcome and outcome.verdict for outcome in found.values()] == [
        ConfirmationVerdict.IN_RANGE,
        None,
        ConfirmationVerdict.IN_RANGE,
    ]
