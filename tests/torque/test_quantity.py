from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.torque.quantity import WrittenTorque, parse_torque, show_torque
from lastbolt.torque.torque_unit import TorqueUnit, convert_torque, read_unit
from lastbolt.torque.unreadable import Unreadable

FIGURES = st.decimals("0.1", "3000", places=2)
UNITS = st.sampled_from(list(TorqueUnit))


def read(text: str) -> WrittenTorque:
    written = parse_torque(text)
    assert isinstance(written, WrittenTorque), written
    return written


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("35 lbf ft", "35", "35", TorqueUnit.POUND_FOOT),
        ("47Nm", "47", "47", TorqueUnit.NEWTON_METRE),
        ("24,5 N·m", "24.5", "24.5", TorqueUnit.NEWTON_METRE),
        ("  8.5 ft-lbs. ", "8.5", "8.5", TorqueUnit.POUND_FOOT),
        ("95 in-lb", "95", "95", TorqueUnit.POUND_INCH),
        ("2.0 kg-m", "2.0", "2.0", TorqueUnit.KILOGRAM_METRE),
        ("2 mkp", "2", "2", TorqueUnit.KILOGRAM_METRE),
        ("120 cNm", "120", "120", TorqueUnit.CENTINEWTON_METRE),
        ("4 daN·m", "4", "4", TorqueUnit.DECANEWTON_METRE),
        ("22–26 N·m", "22", "26", TorqueUnit.NEWTON_METRE),
        ("22 to 26 N m", "22", "26", TorqueUnit.NEWTON_METRE),
        ("50-70 lbf·in", "50", "70", TorqueUnit.POUND_INCH),
        ("24 ± 2 N·m", "22", "26", TorqueUnit.NEWTON_METRE),
        ("24 N·m +/- 2", "22", "26", TorqueUnit.NEWTON_METRE),
        ("24 N·m ± 2 Nm", "22", "26", TorqueUnit.NEWTON_METRE),
        ("20 N·m ± 10 %", "18", "22", TorqueUnit.NEWTON_METRE),
        ("20 ± 10 % N·m", "18", "22", TorqueUnit.NEWTON_METRE),
        ("0,125 N·m", "0.125", "0.125", TorqueUnit.NEWTON_METRE),
    ],
)
def test_reads_what_people_write(text: str, low: str, high: str, unit: TorqueUnit) -> None:
    written = read(text)
    assert written.text == text
    assert (written.main.low, written.main.high, written.main.unit) == (Decimal(low), Decimal(high), unit)


@pytest.mark.parametrize(
    "text", ["10 N·m / 7 lbf·ft", "10 N·m (7 lb-ft)", "10 N·m = 7 ft·lb", "10 Nm, 7 lbf ft"]
)
def test_reads_two_units_and_counts_the_first(text: str) -> None:
    written = read(text)
    assert [quantity.unit for quantity in written.quantities] == [
        TorqueUnit.NEWTON_METRE,
        TorqueUnit.POUND_FOOT,
    ]
    assert written.newton_metres == 10


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("", "Nothing"),
        ("35", "no unit"),
        ("abc", "cannot be read"),
        ("35 furlongs", "no unit of torque"),
        ("35 lb", "no unit of torque"),
        ("-5 N·m", "cannot be read"),
        ("0 N·m", "above zero"),
        ("26–22 N·m", "low end first"),
        ("2 ± 3 N·m", "above zero"),
        ("20–25 % N·m", "tolerance"),
        ("20–25 ± 2 N·m", "cannot be read"),
        ("20 N·m ± 2 lbf·ft", "tolerance"),
        ("1,200 N·m", "thousand"),
        ("1 200 N·m", "cannot be read"),
        ("٣ N·m", "cannot be read"),
        ("9" * 200, "120 characters"),
    ],
)
def test_says_what_is_wrong_in_one_sentence_or_two_with_an_example(text: str, word: str) -> None:
    found = parse_torque(text)
    assert isinstance(found, Unreadable)
    assert word in found.reason
    assert "rite" in found.reason


@given(FIGURES, UNITS)
def test_a_written_figure_comes_back_as_text_and_as_exact_value(value: Decimal, unit: TorqueUnit) -> None:
    text = f"{value} {unit.value}"
    written = read(text)
    assert written.text == text
    assert written.main.low == value
    assert written.newton_metres == convert_torque(value, unit)


@given(FIGURES, UNITS, UNITS)
def test_there_and_back_keeps_the_value(value: Decimal, unit: TorqueUnit, other: TorqueUnit) -> None:
    there = convert_torque(value, unit, to=other)
    assert abs(convert_torque(there, other, to=unit) - value) < Decimal("1e-100")


@given(FIGURES)
def test_comma_and_point_are_the_same(value: Decimal) -> None:
    assert read(f"{value} N·m".replace(".", ",")).newton_metres == value


@given(st.text(max_size=150))
def test_no_text_brings_it_down(text: str) -> None:
    assert isinstance(parse_torque(text), WrittenTorque | Unreadable)


def test_shows_the_original_and_newton_metres_behind_it() -> None:
    assert show_torque(read("50-70 lbf·in")) == "50-70 lbf·in (5.649–7.909 N·m)"
    assert show_torque(read("10 N·m / 7 lbf·ft")) == "10 N·m / 7 lbf·ft"


@pytest.mark.parametrize("unit", list(TorqueUnit))
def test_every_unit_reads_its_own_name(unit: TorqueUnit) -> None:
    assert read_unit(unit.value) is unit
