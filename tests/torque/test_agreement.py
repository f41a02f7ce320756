import pytest

from lastbolt.torque.agreement import find_disagreements, unit_slips
from lastbolt.torque.quantity import WrittenTorque, parse_torque
from lastbolt.torque.torque_unit import TorqueUnit


def disagreements(text: str) -> tuple[str, ...]:
    written = parse_torque(text)
    assert isinstance(written, WrittenTorque)
    return tuple(found.slip.question if found.slip else "" for found in find_disagreements(written))


@pytest.mark.parametrize(
    "text", ["47 N·m", "50–70 lbf·in / 5.6–7.9 N·m", "24 ± 2 N·m / 18 lbf·ft", "2 N·m / 1.5 lbf·ft"]
)
def test_one_unit_ranges_and_small_values_agree(text: str) -> None:
    assert disagreements(text) == ()


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("47 N·m / 35 lbf·in", "×12: lbf·ft written as lbf·in?"),
        ("47 N·m / 416 lbf·ft", "÷12: lbf·in written as lbf·ft?"),
        ("47 N·m / 47 lbf·ft", "÷1.356: N·m written as lbf·ft?"),
        ("35 lbf·ft / 35 N·m", "×1.356: lbf·ft written as N·m?"),
        ("47 N·m / 470 cN·m", ""),
        ("47 N·m / 47 cN·m", "×100: N·m written as cN·m?"),
        ("3 N·m / 3 lbf·ft", "÷1.356: N·m written as lbf·ft?"),
    ],
)
def test_mix_ups_are_found_and_named(text: str, question: str) -> None:
    assert disagreements(text) == (question,)


def test_a_range_disagrees_at_either_end() -> None:
    assert len(disagreements("20–30 N·m / 15–30 lbf·ft")) == 1
    assert len(disagreements("20–30 N·m / 10–22 lbf·ft")) == 1


def test_coarse_rounding_has_an_end() -> None:
    assert disagreements("5 N·m / 3 lbf·ft") == ("",)  # 4.07 N·m, 23 % off
    assert disagreements("9 N·m / 6 lbf·ft") == ()  # 8.13 N·m: 6.64 cut to 6


def test_slips_run_both_ways() -> None:
    pairs = {(slip.written, slip.meant) for slip in unit_slips()}
    assert pairs == {(meant, written) for written, meant in pairs}
    assert unit_slips(TorqueUnit.OUNCE_INCH) == ()
