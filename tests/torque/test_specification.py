import pytest

from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.specification import (
    GeneralTable,
    ManualSource,
    Specification,
    Stage,
    StageKind,
    TorqueWindow,
    find_mistakes,
    stage_for_hole,
    stage_numbers,
    window_from_torque,
    window_with_drag,
)
from lastbolt.torque.specification_doubt import DoubtKind, find_doubts, specifications_in_force
from lastbolt.torque.stage_history import (
    SLACKENED,
    StageDone,
    find_skipped_stages,
    is_stage_known,
    open_stages,
)

WINDOW = TorqueWindow(20.0, 25.0, "20–25 N·m")
SOURCE = ManualSource("Engine workshop manual", "3rd edition", "12", "Ana")
HOLES = (1, 2, 3, 4)


def specify(*stages: Stage, **fields: object) -> Specification:
    return Specification("PUMP", HOLES, stages, **{"origin": SOURCE, **fields})  # type: ignore[arg-type]


TWO_STAGES = specify(
    Stage(1, StageKind.TORQUE, TorqueWindow(9.0, 11.0)),
    Stage(2, StageKind.TORQUE, WINDOW, order=(1, 3, 2, 4)),
)


def window_of(text: str, percent: float | None = None) -> TorqueWindow:
    written = parse_torque(text)
    assert isinstance(written, WrittenTorque)
    return window_from_torque(written, percent)


def test_a_single_figure_gets_five_percent_and_says_so() -> None:
    window = window_of("40 N·m")
    assert (window.low_newton_metres, window.high_newton_metres) == pytest.approx((38, 42))
    assert window.is_tolerance_assumed
    assert window.middle_newton_metres == pytest.approx(40)


def test_a_printed_tolerance_is_taken() -> None:
    window = window_of("40 N·m", 10)
    assert (window.low_newton_metres, window.high_newton_metres) == pytest.approx((36, 44))
    assert not window.is_tolerance_assumed
    assert not window_of("36–44 N·m").is_tolerance_assumed


def test_drag_keeps_the_text() -> None:
    window = window_with_drag(WINDOW, 1.5)
    assert (window.low_newton_metres, window.high_newton_metres, window.text) == (21.5, 26.5, "20–25 N·m")


def test_rows_of_one_stage_may_differ_by_hole() -> None:
    # short, middle and long bolts of one head turn 55°, 65° and 75° after the same torque
    # (practice, read at community.cartalk.com 47587)
    rows = [
        Stage(2, StageKind.ANGLE, angle_degrees=degrees, holes=frozenset({hole}))
        for hole, degrees in ((1, 55), (2, 65), (3, 75))
    ]
    specification = specify(Stage(1, StageKind.TORQUE, WINDOW), *rows)
    assert find_mistakes(specification) == ()
    row = stage_for_hole(specification, 2, hole=3)
    assert row is not None
    assert row.angle_degrees == 75
    assert stage_numbers(specification, 4) == (1,)


@pytest.mark.parametrize(
    ("stages", "words"),
    [
        ([], "no stage"),
        ([Stage(1, StageKind.TORQUE)], "no torque"),
        ([Stage(1, StageKind.ANGLE)], "no angle"),
        ([Stage(1, StageKind.TORQUE_THEN_ANGLE, WINDOW)], "no angle"),
        ([Stage(1, StageKind.TORQUE, TorqueWindow(25.0, 20.0))], "upwards"),
        ([Stage(1, StageKind.TORQUE, WINDOW, holes=frozenset({9}))], "holes that the set does not have: 9"),
        ([Stage(1, StageKind.TORQUE, WINDOW, order=(1, 2, 2, 4))], "order"),
        ([Stage(1, StageKind.TORQUE, WINDOW), Stage(1, StageKind.TORQUE, WINDOW)], "stands twice"),
    ],
)
def test_mistakes_in_a_specification_are_named(stages: list[Stage], words: str) -> None:
    (mistake,) = find_mistakes(specify(*stages))
    assert words in mistake


def test_a_sourced_specification_raises_no_doubt() -> None:
    assert find_doubts(TWO_STAGES) == ()
    assert (
        find_doubts(specify(Stage(1, StageKind.TORQUE, WINDOW), second_person="Ben"), is_critical=True) == ()
    )


@pytest.mark.parametrize(
    ("fields", "kind"),
    [
        ({"origin": None}, DoubtKind.NO_SOURCE),
        ({"origin": ManualSource("Manual", "", "12", "Ana")}, DoubtKind.SOURCE_INCOMPLETE),
        ({"origin": GeneralTable("shop wall chart", "Ana")}, DoubtKind.GENERAL_TABLE),
        ({"superseded_by": "PUMP 2"}, DoubtKind.SUPERSEDED),
    ],
)
def test_doubts_about_the_source(fields: dict[str, object], kind: DoubtKind) -> None:
    (doubt,) = find_doubts(specify(Stage(1, StageKind.TORQUE, WINDOW), **fields))
    assert doubt.kind is kind


def test_units_that_disagree_and_a_missing_second_person_are_doubts() -> None:
    window = TorqueWindow(47.0, 47.0, "47 N·m / 35 lbf·in")
    found = find_doubts(specify(Stage(1, StageKind.TORQUE, window)), is_critical=True)
    assert [doubt.kind for doubt in found] == [DoubtKind.UNITS_DISAGREE, DoubtKind.NOT_SECOND_CHECKED]


def test_only_specifications_in_force_count() -> None:
    old = specify(Stage(1, StageKind.TORQUE, WINDOW), superseded_by="PUMP 2")
    assert specifications_in_force([old, TWO_STAGES]) == (TWO_STAGES,)


def test_a_second_stage_without_the_first_is_one_skip_a_hole() -> None:
    skipped = find_skipped_stages(TWO_STAGES, [StageDone(1, (1, 2)), StageDone(2, HOLES)])
    assert [(skip.hole, skip.missing, skip.position) for skip in skipped] == [(3, (1,), 1), (4, (1,), 1)]


def test_slackening_and_starting_afresh_forget_what_was_done() -> None:
    through = [StageDone(1, HOLES), StageDone(2, HOLES)]
    assert open_stages(TWO_STAGES, through) == {}
    assert open_stages(TWO_STAGES, [*through, StageDone(SLACKENED, (2,))]) == {2: (1, 2)}
    assert open_stages(TWO_STAGES, [*through, StageDone(1, (2,))]) == {2: (2,)}
    again = [*through, StageDone(SLACKENED, (2,)), StageDone(2, (2,))]
    assert [skip.hole for skip in find_skipped_stages(TWO_STAGES, again)] == [2]
    assert open_stages(TWO_STAGES, again) == {2: (1, 2)}


def test_repeating_the_last_stage_is_no_fault() -> None:
    history = [StageDone(1, HOLES), StageDone(2, HOLES), StageDone(2, HOLES)]
    assert find_skipped_stages(TWO_STAGES, history) == ()
    assert open_stages(TWO_STAGES, history) == {}


def test_a_stage_that_nobody_asked_for_is_known_as_such() -> None:
    assert is_stage_known(TWO_STAGES, StageDone(2, HOLES))
    assert not is_stage_known(TWO_STAGES, StageDone(5, HOLES))
    assert is_stage_known(TWO_STAGES, StageDone(SLACKENED, HOLES))
