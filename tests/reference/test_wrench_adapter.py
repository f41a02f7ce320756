"""Crowfoot and extension settings against printed worked examples."""

import pytest

from lastbolt.torque.adapter import Adapter, setting_for_adapter, torque_through_adapter

# wanted, L, E, computed setting, printed setting; any consistent units.
EXAMPLES = [
    pytest.param(300, 10, 4, 214.286, 214, id="TM 1-1500-204-23-9 §8 p. 143, read"),
    pytest.param(
        100, 12, 6, 66.667, 66.67, id="NAVEDTRA 14315 fig. 3-44/3-45, numbers read, result computed"
    ),
    pytest.param(70, 12, 2, 60.0, 60, id="TM 9-254 p. 91, read"),
    pytest.param(135, 10, 1.5, 117.391, 117, id="a helicopter maintenance manual p. 20.4, read"),
    pytest.param(135, 10, -1.5, 158.824, 159, id="the same page, adapter pointing back, read"),
    pytest.param(20, 14, 3, 16.471, 16.5, id="a motorcycle manual (lbf·ft), read"),
    pytest.param(120, 12, 2, 102.857, 103, id="a car maker's manual of 2004, read"),
]


@pytest.mark.parametrize(("wanted", "lever", "extension", "computed", "printed"), EXAMPLES)
def test_setting(wanted: float, lever: float, extension: float, computed: float, printed: float) -> None:
    adapter = Adapter(lever, extension)
    setting = setting_for_adapter(wanted, adapter)
    assert setting == pytest.approx(computed, abs=0.001)
    places = len(str(printed).partition(".")[2])
    assert round(setting, places) == printed
    assert torque_through_adapter(setting, adapter) == pytest.approx(wanted)


@pytest.mark.parametrize(("angle", "setting"), [(45, 73.88), (90, 100.0)])
def test_setting_at_an_angle(angle: float, setting: float) -> None:
    # computed with L + E·cos a; square to the wrench nothing is corrected
    assert setting_for_adapter(100, Adapter(12, 6, angle)) == pytest.approx(setting, abs=0.005)
