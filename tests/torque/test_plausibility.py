import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.torque.assembly import ESTIMATE_MARK
from lastbolt.torque.plausibility import Exemption, PlausibilityVerdict, hard_band, judge_torque, soft_band
from lastbolt.torque.threads import MetricThread, coarse_thread
from lastbolt.torque.torque_unit import TorqueUnit

ROW = [3, 4, 5, 6, 8, 10, 12, 14, 16, 20, 24]


def thread_of(diameter: float) -> MetricThread:
    thread = coarse_thread(diameter)
    assert thread is not None
    return thread


@pytest.mark.parametrize(
    ("value", "diameter", "unit", "question"),
    [
        (122.0, 6, TorqueUnit.POUND_FOOT, "÷12: lbf·in written as lbf·ft"),  # 90 lbf·in typed as lbf·ft
        (1.017, 6, TorqueUnit.POUND_INCH, "×12: lbf·ft written as lbf·in"),  # 9 lbf·ft typed as lbf·in
        (89.0, 6, TorqueUnit.NEWTON_METRE, "÷8.851: lbf·in written as N·m"),
        (2.5, 8, TorqueUnit.NEWTON_METRE, "×9.807: kgf·m written as N·m"),
        (245.0, 8, TorqueUnit.KILOGRAM_METRE, "÷9.807: N·m written as kgf·m"),
    ],
)
def test_the_likely_slip_is_asked_about(value: float, diameter: int, unit: TorqueUnit, question: str) -> None:
    found = judge_torque(value, thread_of(diameter), class_name="8.8", unit=unit)
    assert question in found.sentence.partition("Perhaps")[2]
    assert found.sentence.endswith(ESTIMATE_MARK)


def test_the_low_side_is_never_more_than_low_and_can_be_exempt() -> None:
    assert judge_torque(0.01, thread_of(10)).verdict is PlausibilityVerdict.LOW
    for exemption in Exemption:
        found = judge_torque(0.01, thread_of(10), class_name="8.8", exemptions=frozenset({exemption}))
        assert found.verdict is PlausibilityVerdict.QUIET


@pytest.mark.parametrize("exemption", list(Exemption))
def test_no_exemption_silences_the_high_side(exemption: Exemption) -> None:
    found = judge_torque(500, thread_of(6), exemptions=frozenset({exemption}))
    assert found.verdict is PlausibilityVerdict.IMPOSSIBLE


def test_a_thread_without_a_listed_head_is_not_judged() -> None:
    found = judge_torque(10, thread_of(7))
    assert found.verdict is PlausibilityVerdict.NOT_JUDGED
    assert (found.hard_band, found.hints) == (None, ())


def test_nothing_is_filled_in_where_nothing_is_odd() -> None:
    found = judge_torque(24.6, thread_of(8), class_name="8.8")
    assert (found.sentence, found.hints) == ("", ())


@given(
    st.sampled_from(ROW), st.floats(0.001, 5000), st.sampled_from(["", "4.6", "8.8", "10.9", "12.9", "7T"])
)
def test_verdicts_follow_the_bands(diameter: int, value: float, name: str) -> None:
    found = judge_torque(value, thread_of(diameter), class_name=name)
    hard, soft = hard_band(thread_of(diameter)), soft_band(thread_of(diameter), name)
    assert hard is not None
    assert (found.verdict is PlausibilityVerdict.IMPOSSIBLE) == (value > hard.high_newton_metres)
    if found.verdict is PlausibilityVerdict.QUIET:
        assert (soft or hard).holds(value)
    assert all((soft or hard).holds(value * slip.factor) for slip in found.hints)


@given(st.sampled_from(ROW))
def test_finer_threads_of_a_size_stay_close_to_the_coarse_one(diameter: int) -> None:
    coarse = hard_band(thread_of(diameter))
    fine = hard_band(MetricThread(diameter, thread_of(diameter).pitch_mm * 0.75))
    assert coarse and fine
    assert 1.0 < fine.high_newton_metres / coarse.high_newton_metres < 1.2
