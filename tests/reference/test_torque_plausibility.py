"""The plausibility rule against published workshop tables and its own bands."""

import pytest

from lastbolt.torque.assembly import ESTIMATE_MARK
from lastbolt.torque.plausibility import Exemption, PlausibilityVerdict, hard_band, judge_torque, usual_torque
from lastbolt.torque.threads import MetricThread, coarse_thread

# Computed: class 4.6 at 50 % of yield, µ 0.08, to class 12.9 at full yield, µ 0.20, N·m.
HARD_BANDS = {
    3: (0.20, 3.4), 4: (0.47, 7.8), 5: (0.92, 15.5), 6: (1.6, 26.9), 8: (3.9, 65.5), 10: (7.6, 129),
    12: (13, 224), 14: (21, 358), 16: (32, 557), 20: (62, 1090), 24: (107, 1874),
}  # fmt: skip

# Published workshop tables, N·m, all read. A: manual, µ 0.14 (p. 99). B: a p. 45 table, lubricated and dry.
# D: class 10.9 dry, free-spinning nut, least and greatest.
TABLE_A = {
    5: (5.9, 8.7, 10), 6: (10, 15, 18), 8: (25, 36, 43), 10: (49, 72, 84), 12: (85, 125, 145),
    14: (135, 200, 235), 16: (210, 310, 365),
}  # fmt: skip
TABLE_B = {
    6: ((9, 11), (13, 17), (15, 19)), 8: ((22, 28), (32, 40), (37, 47)), 10: ((43, 55), (63, 80), (75, 95)),
    12: ((75, 95), (110, 140), (130, 165)), 14: ((120, 150), (175, 225), (205, 260)),
    16: ((190, 240), (275, 350), (320, 400)),
}  # fmt: skip
TABLE_D = {
    5: (8.4, 9.3), 6: (14.3, 15.8), 8: (38, 42), 10: (75, 83), 12: (132, 145), 14: (210, 232), 16: (326, 360),
}  # fmt: skip
# C: generic dry table of a Japanese maker, own classes 4T, 7T, 9T.
TABLE_C = {
    6: (5.5, 9, 11), 8: (13.5, 22, 28), 10: (28, 45, 55), 12: (45, 80, 100), 14: (80, 130, 170),
}  # fmt: skip
# Class 8.8 into cast aluminium (read): 0.81–0.89 of the VDI value.
ALUMINIUM = {6: 9, 8: 20, 10: 40, 12: 70}

CLASSES = ("8.8", "10.9", "12.9")
CELLS = (
    [(d, name, value) for d, row in TABLE_A.items() for name, value in zip(CLASSES, row, strict=True)]
    + [
        (d, name, value)
        for d, row in TABLE_B.items()
        for name, both in zip(CLASSES, row, strict=True)
        for value in both
    ]
    + [(d, "10.9", value) for d, both in TABLE_D.items() for value in both]
)


def thread_of(diameter: float) -> MetricThread:
    thread = coarse_thread(diameter)
    assert thread is not None
    return thread


@pytest.mark.parametrize("diameter", HARD_BANDS)
def test_hard_bands(diameter: int) -> None:
    band = hard_band(thread_of(diameter))
    assert band is not None
    low, high = HARD_BANDS[diameter]
    # printed to two or three figures; 7.6 and 3.9 to one decimal
    assert band.low_newton_metres == pytest.approx(low, rel=0.015)
    assert band.high_newton_metres == pytest.approx(high, rel=0.006)


@pytest.mark.parametrize(("diameter", "name", "value"), CELLS)
def test_no_published_cell_raises_a_false_alarm(diameter: int, name: str, value: float) -> None:
    usual = usual_torque(thread_of(diameter), name)
    assert usual is not None
    assert 0.855 <= value / usual <= 1.195, (diameter, name, value / usual)
    found = judge_torque(value, thread_of(diameter), class_name=name)
    assert found.verdict is PlausibilityVerdict.QUIET


@pytest.mark.parametrize("diameter", TABLE_C)
def test_a_makers_own_classes_are_judged_by_the_hard_band_alone(diameter: int) -> None:
    for value in TABLE_C[diameter]:
        assert judge_torque(value, thread_of(diameter), class_name="7T").verdict is PlausibilityVerdict.QUIET


@pytest.mark.parametrize("diameter", ALUMINIUM)
def test_values_into_aluminium_are_quiet_even_without_the_exemption(diameter: int) -> None:
    value, usual = ALUMINIUM[diameter], usual_torque(thread_of(diameter), "8.8")
    assert usual is not None
    assert 0.805 <= value / usual <= 0.895
    assert judge_torque(value, thread_of(diameter), class_name="8.8").verdict is PlausibilityVerdict.QUIET


@pytest.mark.parametrize(
    ("value", "name", "verdict"),
    [
        (100, "", PlausibilityVerdict.IMPOSSIBLE),
        (100, "8.8", PlausibilityVerdict.IMPOSSIBLE),
        (10, "8.8", PlausibilityVerdict.QUIET),
        (15, "8.8", PlausibilityVerdict.QUIET),
        (20, "8.8", PlausibilityVerdict.HIGH),
        (30, "", PlausibilityVerdict.IMPOSSIBLE),
        (30, "4.6", PlausibilityVerdict.IMPOSSIBLE),
        (30, "12.9", PlausibilityVerdict.IMPOSSIBLE),
    ],
)
def test_the_worked_m6_cases(value: float, name: str, verdict: PlausibilityVerdict) -> None:
    found = judge_torque(value, thread_of(6), class_name=name)
    assert found.verdict is verdict
    assert found.mark == ESTIMATE_MARK
    assert (ESTIMATE_MARK in found.sentence) == (verdict is not PlausibilityVerdict.QUIET)


def test_how_far_the_m6_cases_lie_out() -> None:
    # computed: 100 N·m is 3.7 × the ceiling and 9.9 × the 8.8 value; 15 is 1.48 ×, 20 is 1.97 ×
    band, usual = hard_band(thread_of(6)), usual_torque(thread_of(6), "8.8")
    assert band and usual
    assert 100 / band.high_newton_metres == pytest.approx(3.7, abs=0.05)
    assert 100 / usual == pytest.approx(9.9, abs=0.05)
    assert 15 / usual == pytest.approx(1.48, abs=0.005)
    assert 20 / usual == pytest.approx(1.97, abs=0.006)


@pytest.mark.parametrize("value", [20, 30])
def test_torque_before_an_angle_is_exempt_from_the_low_test(value: float) -> None:
    # 20 N·m then +60° +80° (read in a 2011 manual); 30 N·m then 155° (read, 2.9 litre engine); M10 assumed
    for exemption in (Exemption.ANGLE_FOLLOWS, Exemption.TORQUE_TO_YIELD):
        found = judge_torque(value, thread_of(10), class_name="10.9", exemptions=frozenset({exemption}))
        assert found.verdict is PlausibilityVerdict.QUIET
    assert judge_torque(value, thread_of(10), class_name="10.9").verdict is PlausibilityVerdict.LOW
