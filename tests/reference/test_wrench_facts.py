"""Torque wrench range, deviation, calibration and drag, worked as in the trade's references."""

from datetime import date

import pytest

from lastbolt.torque.calibration import Calibration, CalibrationStanding, judge_calibration
from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.specification import window_from_torque, window_with_drag
from lastbolt.torque.torque_unit import NEWTON_METRES_PER, TorqueUnit
from lastbolt.torque.wrench import (
    ObjectionKind,
    Wrench,
    WrenchKind,
    find_range_objection,
    permissible_deviation_percent,
    uncertainty_newton_metres,
    usable_range,
)

CALIBRATED = Calibration(calibrated_on=date(2025, 3, 1))


@pytest.mark.parametrize(
    ("kind", "high", "percent"),
    [
        # ISO 6789-1:2017 §5.1.5, from memory: ±4 % above 10 N·m, ±6 % up to it; bars and screwdrivers ±6 %
        (WrenchKind.CLICK, 100.0, 4.0),
        (WrenchKind.INDICATING, 100.0, 4.0),
        (WrenchKind.CLICK, 10.0, 6.0),
        (WrenchKind.BENDING_BEAM, 100.0, 6.0),
        (WrenchKind.CLICK_SCREWDRIVER, 12.0, 6.0),
    ],
)
def test_permissible_deviation(kind: WrenchKind, high: float, percent: float) -> None:
    assert permissible_deviation_percent(Wrench("W", kind, high)) == percent


def test_twelve_newton_metres_are_below_a_20_to_100_wrench() -> None:
    found = find_range_objection(Wrench("W2", WrenchKind.CLICK, 100.0, 20.0), 12.0)
    assert found is not None
    assert found.kind is ObjectionKind.BELOW_RANGE


def test_a_small_wrench_at_its_top_is_off_by_up_to_0_6() -> None:
    assert uncertainty_newton_metres(Wrench("W1", WrenchKind.CLICK, 10.0, 2.0), 10.0) == pytest.approx(0.6)


def test_the_range_starts_at_the_lowest_marked_value_else_at_a_fifth() -> None:
    # edition trap of 2017, read at norbar.com article 68: a 10–100 tool counts from 10; only max known: a fifth
    assert usable_range(Wrench("W", WrenchKind.CLICK, 100.0, 10.0)).low_newton_metres == 10
    assert usable_range(Wrench("W", WrenchKind.CLICK, 100.0)).low_newton_metres == 20


@pytest.mark.parametrize(
    ("used_on", "cycle", "standing"),
    [
        # 12 months or 5 000 cycles from memory; the dates are the worked test
        (date(2026, 2, 28), 0, CalibrationStanding.CURRENT),
        (date(2026, 3, 2), 0, CalibrationStanding.OVERDUE),
        (date(2025, 6, 1), 5000, CalibrationStanding.CURRENT),
        (date(2025, 6, 1), 5001, CalibrationStanding.TOO_MANY_CYCLES),
    ],
)
def test_calibration_due(used_on: date, cycle: int, standing: CalibrationStanding) -> None:
    assert judge_calibration(CALIBRATED, used_on, cycle=cycle).standing is standing


def test_a_drop_makes_it_due_at_once() -> None:
    # AC 43.13-1B §7-40, read where quoted at vansairforce.net
    dropped = Calibration(
        calibrated_on=date(2025, 3, 1), suspect_since=date(2025, 6, 1), suspect_reason="dropped"
    )
    assert judge_calibration(dropped, date(2025, 5, 31)).is_current
    assert judge_calibration(dropped, date(2025, 6, 1)).standing is CalibrationStanding.SUSPECT


def test_drag_is_added_to_both_ends() -> None:
    # AC 43.13-1B §7-40 c–g, read; worked: 1/4-28 tension nut 50–70 lbf·in, drag 7 → 57–77 = 6.44–8.70 N·m
    written = parse_torque("50–70 lbf·in")
    assert isinstance(written, WrittenTorque)
    per_inch = float(NEWTON_METRES_PER[TorqueUnit.POUND_INCH])
    window = window_with_drag(window_from_torque(written), 7 * per_inch)
    assert window.low_newton_metres / per_inch == pytest.approx(57)
    assert window.high_newton_metres / per_inch == pytest.approx(77)
    assert window.low_newton_metres == pytest.approx(6.44, abs=0.005)
    assert window.high_newton_metres == pytest.approx(8.70, abs=0.005)
