from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
from lastbolt.torque.adapter import Adapter, make_adapter, setting_for_adapter, torque_through_adapter
from lastbolt.torque.adapter_drawing import CAUTION, draw_adapter
from lastbolt.torque.calibration import (
    Calibration,
    CalibrationStanding,
    calibration_due_on,
    judge_calibration,
)
from lastbolt.torque.specification import TorqueWindow
from lastbolt.torque.unreadable import Unreadable
from lastbolt.torque.wrench import ObjectionKind, Wrench, WrenchKind, judge_wrench, rank_wrenches

DAY = date(2026, 6, 1)
CURRENT = Calibration(calibrated_on=date(2026, 1, 10))
SMALL = Wrench("W1", WrenchKind.CLICK, 25.0, 5.0, calibration=CURRENT)
MIDDLE = Wrench("W2", WrenchKind.CLICK, 100.0, 20.0, calibration=CURRENT)
LARGE = Wrench("W3", WrenchKind.INDICATING, 200.0, 40.0, calibration=CURRENT)
LATE = Wrench("W9", WrenchKind.CLICK, 100.0, 20.0, calibration=Calibration(due_on=date(2026, 5, 1)))
SHELF = (LARGE, LATE, MIDDLE, SMALL)


def best_for(low: float, high: float) -> tuple[str, float, tuple[ObjectionKind, ...]]:
    best = rank_wrenches(SHELF, TorqueWindow(low, high), used_on=DAY)[0]
    return best.wrench.identity, best.setting_newton_metres, tuple(one.kind for one in best.objections)


def test_the_wrench_that_suits_comes_first() -> None:
    assert best_for(8, 10) == ("W1", 9.0, ())
    assert best_for(60, 70) == ("W2", 65.0, ())
    assert best_for(110, 130) == ("W3", 120.0, ())


def test_a_setting_moves_into_the_range_but_not_out_of_the_window() -> None:
    assert best_for(4, 5.5) == ("W1", 5.0, ())
    name, setting, kinds = best_for(3, 4)
    assert (name, setting) == ("W1", 4.0)
    assert kinds == (ObjectionKind.BELOW_RANGE,)
    assert best_for(250, 300)[2] == (ObjectionKind.ABOVE_RANGE,)


def test_a_wrench_out_of_calibration_or_too_coarse_is_objected_to() -> None:
    late = judge_wrench(LATE, TorqueWindow(60, 70), used_on=DAY)
    assert [one.kind for one in late.objections] == [ObjectionKind.CALIBRATION]
    narrow = judge_wrench(LARGE, TorqueWindow(89.3, 91.5), used_on=DAY)
    assert [one.kind for one in narrow.objections] == [ObjectionKind.TOO_COARSE]


def test_an_assumed_tolerance_is_no_ground_to_call_a_wrench_coarse() -> None:
    window = TorqueWindow(9.5, 10.5, is_tolerance_assumed=True)
    tiny = Wrench("W0", WrenchKind.CLICK, 10.0, 2.0, calibration=CURRENT)
    assert judge_wrench(tiny, window, used_on=DAY).objections == ()


def test_range_counts_at_the_setting_not_at_the_fastener() -> None:
    adapter = Adapter(300, 150)
    choice = judge_wrench(SMALL, TorqueWindow(28, 32), used_on=DAY, adapter=adapter)
    assert choice.setting_newton_metres == pytest.approx(20)
    assert choice.objections == ()


def test_its_own_deviation_wins_over_the_standard() -> None:
    fine = Wrench("W5", WrenchKind.INDICATING, 100.0, 10.0, 1.0, CURRENT)
    assert judge_wrench(fine, TorqueWindow(45, 55), used_on=DAY).uncertainty_newton_metres == pytest.approx(
        0.5
    )


@pytest.mark.parametrize(
    ("calibration", "due"),
    [
        (Calibration(), None),
        (Calibration(calibrated_on=date(2024, 2, 29)), date(2025, 2, 28)),
        (Calibration(calibrated_on=date(2025, 3, 1), first_used_on=date(2025, 5, 6)), date(2026, 5, 6)),
        (Calibration(calibrated_on=date(2025, 3, 1), first_used_on=date(2024, 5, 6)), date(2026, 3, 1)),
        (Calibration(calibrated_on=date(2025, 3, 1), due_on=date(2025, 9, 1)), date(2025, 9, 1)),
        (Calibration(calibrated_on=date(2025, 8, 31), interval_months=6), date(2026, 2, 28)),
    ],
)
def test_last_day_in_calibration(calibration: Calibration, due: date | None) -> None:
    assert calibration_due_on(calibration) == due


def test_unknown_calibration_is_its_own_standing_and_the_last_day_still_counts() -> None:
    assert judge_calibration(Calibration(), DAY).standing is CalibrationStanding.NOT_KNOWN
    on_the_day = judge_calibration(Calibration(due_on=DAY), DAY)
    assert on_the_day.is_current
    assert "2026-06-01" in on_the_day.sentence


@given(st.floats(1, 500), st.floats(100, 1000), st.floats(-60, 400), st.floats(0, 180))
def test_setting_and_torque_undo_each_other(
    wanted: float, lever: float, extension: float, angle: float
) -> None:
    adapter = make_adapter(lever, extension, angle_degrees=angle)
    if isinstance(adapter, Unreadable):
        assert extension > 0 and angle > 90
        return
    assert torque_through_adapter(setting_for_adapter(wanted, adapter), adapter) == pytest.approx(wanted)


def test_turning_back_is_the_same_as_a_negative_length() -> None:
    assert setting_for_adapter(100, Adapter(300, 40, 180)) == pytest.approx(
        setting_for_adapter(100, Adapter(300, -40))
    )


@pytest.mark.parametrize(("lever", "extension"), [(0, 50), (-3, 50), (300, -300), (float("nan"), 1)])
def test_impossible_lengths_are_a_value_and_misuse_raises(lever: float, extension: float) -> None:
    assert isinstance(make_adapter(lever, extension), Unreadable)
    with pytest.raises(BadInputError):
        Adapter(lever, extension)


@pytest.mark.parametrize(
    "adapter", [Adapter(300, 50), Adapter(300, 0), Adapter(300, -40), Adapter(300, 150, 120)]
)
def test_the_picture_names_lever_extension_setting_and_caution(adapter: Adapter) -> None:
    picture = draw_adapter(adapter, 70.0)
    assert "L = 300 mm" in picture
    assert f"E = {adapter.extension_mm:g} mm".replace("-", "−") in picture
    assert f"set {setting_for_adapter(70.0, adapter):.4g} N·m" in picture
    assert CAUTION in picture
    assert ("a = 120°" in picture) == bool(adapter.angle_degrees)
