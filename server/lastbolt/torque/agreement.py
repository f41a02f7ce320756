"""Whether the units of one printed specification say the same, and which slip explains it if not."""

from dataclasses import dataclass
from decimal import Decimal

from lastbolt.torque.quantity import Quantity, WrittenTorque
from lastbolt.torque.torque_unit import NEWTON_METRES_PER, TorqueUnit, convert_torque

AGREEING_RATIO = 1.10
"""Printed manuals differ from the true conversion by up to 5 % (values read from two service manuals)."""

ROUNDED_RATIO = 1.20
"""Where one unit in the last printed place explains it; a lbf·ft for N·m mix-up is 1.356: it never passes."""

MIXED_UP_UNITS: tuple[tuple[TorqueUnit, TorqueUnit], ...] = (
    (TorqueUnit.POUND_FOOT, TorqueUnit.POUND_INCH),
    (TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_FOOT),
    (TorqueUnit.NEWTON_METRE, TorqueUnit.KILOGRAM_METRE),
    (TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_INCH),
    (TorqueUnit.NEWTON_METRE, TorqueUnit.CENTINEWTON_METRE),
)


@dataclass(frozen=True)
class UnitSlip:
    """One unit written where another was meant; `factor` turns the value as written into the one meant."""

    written: TorqueUnit
    meant: TorqueUnit

    @property
    def factor(self) -> float:
        """Meant value over written value, both in N·m."""
        return float(NEWTON_METRES_PER[self.meant] / NEWTON_METRES_PER[self.written])

    @property
    def question(self) -> str:
        """The hint in words, as a question."""
        factor = self.factor
        by = f"×{factor:.4g}" if factor > 1 else f"÷{1 / factor:.4g}"
        return f"{by}: {self.meant.value} written as {self.written.value}?"


@dataclass(frozen=True)
class Disagreement:
    """Two figures of one specification that cannot both be right; `ratio` is larger over smaller, in N·m."""

    first: Quantity
    second: Quantity
    ratio: float
    slip: UnitSlip | None
    sentence: str


def unit_slips(written: TorqueUnit | None = None) -> tuple[UnitSlip, ...]:
    """The slips worth asking about, in both directions; only those from one unit when it is given.

    >>> [slip.meant.value for slip in unit_slips(TorqueUnit.POUND_FOOT)]
    ['lbf·in', 'N·m']
    """
    both_ways = [UnitSlip(*pair) for pair in MIXED_UP_UNITS] + [UnitSlip(b, a) for a, b in MIXED_UP_UNITS]
    return tuple(slip for slip in both_ways if written is None or slip.written is written)


def find_disagreements(written: WrittenTorque) -> tuple[Disagreement, ...]:
    """Each quantity that does not agree with the first one; empty when all agree or only one stands there.

    Two figures agree up to 10 %, or up to 20 % when one unit in the last printed place of either explains it.

    >>> from lastbolt.torque.quantity import parse_torque
    >>> find_disagreements(parse_torque("10 N·m / 7 lbf·ft"))
    ()
    >>> find_disagreements(parse_torque("10 N·m / 88 lbf·ft"))[0].slip.question
    '÷12: lbf·in written as lbf·ft?'
    """
    found = []
    for other in written.quantities[1:]:
        if not quantities_agree(written.main, other):
            found.append(_describe(written.main, other))
    return tuple(found)


def quantities_agree(first: Quantity, second: Quantity) -> bool:
    """Whether two figures or ranges mean the same torque, given how coarsely manuals round."""
    if first.is_single or second.is_single:
        return _figures_agree((first.middle, first.unit), (second.middle, second.unit))
    low = _figures_agree((first.low, first.unit), (second.low, second.unit))
    return low and _figures_agree((first.high, first.unit), (second.high, second.unit))


def _figures_agree(first: tuple[Decimal, TorqueUnit], second: tuple[Decimal, TorqueUnit]) -> bool:
    ratio = _ratio(convert_torque(*first), convert_torque(*second))
    if ratio <= AGREEING_RATIO:
        return True
    return ratio <= ROUNDED_RATIO and (_is_rounding(first, second) or _is_rounding(second, first))


def _is_rounding(first: tuple[Decimal, TorqueUnit], second: tuple[Decimal, TorqueUnit]) -> bool:
    """Whether the first figure is the second one, rounded up or down to its last printed place."""
    true = convert_torque(second[0], second[1], to=first[1])
    exponent = first[0].as_tuple().exponent
    return isinstance(exponent, int) and abs(true - first[0]) <= Decimal(1).scaleb(exponent)


def _ratio(first: Decimal, second: Decimal) -> float:
    return float(max(first, second) / min(first, second))


def _describe(first: Quantity, second: Quantity) -> Disagreement:
    in_first_unit = convert_torque(second.middle, second.unit, to=first.unit)
    ratio = _ratio(first.middle, in_first_unit)
    slip = next(
        (
            slip
            for slip in unit_slips(second.unit)
            if quantities_agree(first, Quantity(second.low, second.high, slip.meant, second.text))
        ),
        None,
    )
    sentence = (
        f"{second.text} is {float(in_first_unit):.4g} {first.unit.value}, which does not agree with "
        f"{first.text}; look at the page again."
    )
    return Disagreement(first, second, ratio, slip, f"{sentence} {slip.question}" if slip else sentence)
