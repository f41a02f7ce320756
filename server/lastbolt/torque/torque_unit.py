"""The units of torque, their exact factors and the ways people spell them."""

from decimal import Context, Decimal
from enum import Enum

EXACT = Context(prec=120)
POUND_KG = Decimal("0.45359237")
STANDARD_GRAVITY = Decimal("9.80665")
INCH_M = Decimal("0.0254")
FOOT_M = Decimal("0.3048")
POUND_FORCE_N = POUND_KG * STANDARD_GRAVITY
PSI_MPA = EXACT.divide(POUND_FORCE_N, INCH_M * INCH_M) / Decimal(1_000_000)


class TorqueUnit(Enum):
    """A unit of torque; its value is the way we write it."""

    NEWTON_METRE = "N·m"
    POUND_FOOT = "lbf·ft"
    POUND_INCH = "lbf·in"
    KILOGRAM_METRE = "kgf·m"
    CENTINEWTON_METRE = "cN·m"
    DECANEWTON_METRE = "daN·m"
    KILOGRAM_CENTIMETRE = "kgf·cm"
    OUNCE_INCH = "ozf·in"


NEWTON_METRES_PER: dict[TorqueUnit, Decimal] = {
    TorqueUnit.NEWTON_METRE: Decimal(1),
    TorqueUnit.POUND_FOOT: POUND_FORCE_N * FOOT_M,
    TorqueUnit.POUND_INCH: POUND_FORCE_N * INCH_M,
    TorqueUnit.KILOGRAM_METRE: STANDARD_GRAVITY,
    TorqueUnit.CENTINEWTON_METRE: Decimal("0.01"),
    TorqueUnit.DECANEWTON_METRE: Decimal(10),
    TorqueUnit.KILOGRAM_CENTIMETRE: STANDARD_GRAVITY / 100,
    TorqueUnit.OUNCE_INCH: POUND_FORCE_N * INCH_M / 16,
}
"""N·m in one unit, exact: 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s², 1 in = 0.0254 m, 1 ft = 0.3048 m.

Source: NIST SP 811 (2008) appendix B and the SI Brochure, 9th edition, both from memory.
"""

_FORCES_AND_ARMS: tuple[tuple[TorqueUnit, tuple[str, ...], tuple[str, ...], bool], ...] = (
    (TorqueUnit.NEWTON_METRE, ("n", "newton", "newtons"), ("m", "metre", "metres", "meter", "meters"), False),
    (TorqueUnit.CENTINEWTON_METRE, ("cn",), ("m",), False),
    (TorqueUnit.DECANEWTON_METRE, ("dan",), ("m",), True),
    (TorqueUnit.KILOGRAM_METRE, ("kgf", "kg", "kp"), ("m",), True),
    (TorqueUnit.KILOGRAM_CENTIMETRE, ("kgf", "kg", "kp"), ("cm",), True),
    (TorqueUnit.POUND_FOOT, ("lbf", "lb", "lbs", "pound", "pounds"), ("ft", "foot", "feet"), True),
    (TorqueUnit.POUND_INCH, ("lbf", "lb", "lbs", "pound", "pounds"), ("in", "inch", "inches"), True),
    (TorqueUnit.OUNCE_INCH, ("ozf", "oz"), ("in", "inch"), True),
)
_IGNORED = str.maketrans("", "", " \t\u00a0\u202f·⋅•∙*×.-‐‑–_'’")


def _spellings() -> dict[str, TorqueUnit]:
    known: dict[str, TorqueUnit] = {}
    for unit, forces, arms, either_way in _FORCES_AND_ARMS:
        for force in forces:
            for arm in arms:
                known[force + arm] = unit
                if either_way:
                    known[arm + force] = unit
    return known


_SPELLINGS = _spellings()


def read_unit(text: str) -> TorqueUnit | None:
    """The unit meant by a spelling, or None when it is no unit of torque that we know.

    Case, spaces, dots and hyphens do not matter; `lb` and `kg` in a torque mean the force.

    >>> read_unit("ft-lbs"), read_unit("N m"), read_unit("kg")
    (<TorqueUnit.POUND_FOOT: 'lbf·ft'>, <TorqueUnit.NEWTON_METRE: 'N·m'>, None)
    """
    return _SPELLINGS.get(text.translate(_IGNORED).lower())


def convert_torque(value: Decimal, unit: TorqueUnit, *, to: TorqueUnit = TorqueUnit.NEWTON_METRE) -> Decimal:
    """A torque in another unit: exact into N·m, to 120 digits otherwise.

    Formula: value · factor(unit) / factor(to). Valid for any finite value.

    >>> convert_torque(Decimal(35), TorqueUnit.POUND_FOOT)
    Decimal('47.45362819159901400')
    """
    newton_metres = EXACT.multiply(value, NEWTON_METRES_PER[unit])
    if to is TorqueUnit.NEWTON_METRE:
        return newton_metres
    return EXACT.divide(newton_metres, NEWTON_METRES_PER[to])
