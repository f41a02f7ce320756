"""Torque wrenches: their usable range, how far they may be off, and which one suits a value."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from enum import Enum

from lastbolt.torque.adapter import Adapter, setting_for_adapter
from lastbolt.torque.calibration import Calibration, CalibrationJudgement, judge_calibration
from lastbolt.torque.specification import TorqueWindow
from lastbolt.units import NewtonMetres

LOWEST_SHARE_OF_MAX = 0.2
"""Where only the highest value is known, 20–100 % of it is usable (calibration points 20, 60 and 100 %)."""

_NEARLY = 1e-9


class WrenchKind(Enum):
    """How a torque tool speaks: setting tools click at a set value, indicating ones show one."""

    CLICK = "click"
    INDICATING = "indicating"
    BENDING_BEAM = "bending beam"
    CLICK_SCREWDRIVER = "click screwdriver"
    INDICATING_SCREWDRIVER = "indicating screwdriver"


INDICATING_KINDS = frozenset(
    {WrenchKind.INDICATING, WrenchKind.BENDING_BEAM, WrenchKind.INDICATING_SCREWDRIVER}
)
_COARSE_KINDS = frozenset(
    {WrenchKind.BENDING_BEAM, WrenchKind.CLICK_SCREWDRIVER, WrenchKind.INDICATING_SCREWDRIVER}
)


@dataclass(frozen=True)
class Wrench:
    """A registered torque wrench, N·m; `low_newton_metres` None when only the highest value is known.

    `deviation_percent` is its own accuracy class or certificate value; None takes the standard's figure.
    """

    identity: str
    kind: WrenchKind
    high_newton_metres: NewtonMetres
    low_newton_metres: NewtonMetres | None = None
    deviation_percent: float | None = None
    calibration: Calibration = field(default_factory=Calibration)


@dataclass(frozen=True)
class TorqueRange:
    """The torques a wrench may be used for, N·m, both ends included."""

    low_newton_metres: NewtonMetres
    high_newton_metres: NewtonMetres


class ObjectionKind(Enum):
    """Why a wrench does not suit."""

    BELOW_RANGE = "below its range"
    ABOVE_RANGE = "above its range"
    CALIBRATION = "calibration"
    TOO_COARSE = "too coarse"


@dataclass(frozen=True)
class WrenchObjection:
    """One reason against a wrench, in one sentence with a way out."""

    kind: ObjectionKind
    sentence: str


@dataclass(frozen=True)
class WrenchChoice:
    """A wrench for a value: what to set, how far it may be off there (± N·m), and what speaks against it."""

    wrench: Wrench
    setting_newton_metres: NewtonMetres
    uncertainty_newton_metres: NewtonMetres
    calibration: CalibrationJudgement
    objections: tuple[WrenchObjection, ...]


def usable_range(wrench: Wrench) -> TorqueRange:
    """Marked lowest to highest value; 20–100 % of the highest when only that is known.

    In the 2017 edition of ISO 6789 the range starts at the lowest *marked* value and is checked there, so a
    10–100 N·m tool counts from 10, not from 20 (read at norbar.com article 68).

    >>> usable_range(Wrench("W2", WrenchKind.CLICK, 100.0)).low_newton_metres
    20.0
    """
    low = wrench.low_newton_metres
    if low is None:
        low = NewtonMetres(wrench.high_newton_metres * LOWEST_SHARE_OF_MAX)
    return TorqueRange(low, wrench.high_newton_metres)


def permissible_deviation_percent(wrench: Wrench) -> float:
    """How far the wrench may be off, ± % of the value.

    Its own figure, else 6 % up to 10 N·m and for beams and screwdrivers, 4 % above.
    Source: ISO 6789-1:2017 §5.1.5, from memory (which class letter gets which value: medium confidence).
    """
    if wrench.deviation_percent is not None:
        return wrench.deviation_percent
    is_coarse = wrench.kind in _COARSE_KINDS or wrench.high_newton_metres <= 10
    return 6.0 if is_coarse else 4.0


def uncertainty_newton_metres(wrench: Wrench, value_newton_metres: NewtonMetres) -> NewtonMetres:
    """How far the true torque may be from a value, ± N·m.

    >>> round(uncertainty_newton_metres(Wrench("W1", WrenchKind.CLICK, 10.0, 2.0), 10.0), 3)
    0.6
    """
    return NewtonMetres(value_newton_metres * permissible_deviation_percent(wrench) / 100)


def find_range_objection(wrench: Wrench, value_newton_metres: NewtonMetres) -> WrenchObjection | None:
    """Why a value (as set or shown on the wrench) lies outside its usable range, or None."""
    usable = usable_range(wrench)
    span = f"{usable.low_newton_metres:g}–{usable.high_newton_metres:g} N·m"
    value = f"{value_newton_metres:.4g} N·m"
    if value_newton_metres < usable.low_newton_metres * (1 - _NEARLY):
        words = f"{value} is below the range of wrench {wrench.identity} ({span}): take a smaller one."
        return WrenchObjection(ObjectionKind.BELOW_RANGE, words)
    if value_newton_metres > usable.high_newton_metres * (1 + _NEARLY):
        words = f"{value} is above the range of wrench {wrench.identity} ({span}): take a larger one."
        return WrenchObjection(ObjectionKind.ABOVE_RANGE, words)
    return None


def judge_wrench(
    wrench: Wrench, window: TorqueWindow, *, used_on: date, cycle: int = 0, adapter: Adapter | None = None
) -> WrenchChoice:
    """How one wrench suits a window on a day, through an adapter or not; empty objections mean it does.

    The setting is the middle of the window, moved towards the wrench's range but never out of the window.
    """
    low, middle, high = (
        value if adapter is None else setting_for_adapter(value, adapter)
        for value in (window.low_newton_metres, window.middle_newton_metres, window.high_newton_metres)
    )
    usable = usable_range(wrench)
    nearest = min(max(middle, usable.low_newton_metres), usable.high_newton_metres)
    setting = NewtonMetres(min(max(nearest, low), high))
    uncertainty = uncertainty_newton_metres(wrench, setting)
    judgement = judge_calibration(wrench.calibration, used_on, cycle=cycle)
    objections = [find_range_objection(wrench, setting)]
    if not judgement.is_current:
        words = f"Wrench {wrench.identity}: {judgement.sentence}"
        objections.append(WrenchObjection(ObjectionKind.CALIBRATION, words))
    if not window.is_tolerance_assumed and 2 * uncertainty > (high - low) * (1 + _NEARLY) > 0:
        words = f"Wrench {wrench.identity} may be off by ±{uncertainty:.2g} N·m, more than the window allows."
        objections.append(WrenchObjection(ObjectionKind.TOO_COARSE, words))
    return WrenchChoice(wrench, setting, uncertainty, judgement, tuple(one for one in objections if one))


def rank_wrenches(
    wrenches: Iterable[Wrench], window: TorqueWindow, *, used_on: date, adapter: Adapter | None = None
) -> tuple[WrenchChoice, ...]:
    """Every wrench judged for a window, the best first: fewest objections, then the smallest uncertainty."""
    choices = (judge_wrench(wrench, window, used_on=used_on, adapter=adapter) for wrench in wrenches)
    return tuple(
        sorted(
            choices, key=lambda one: (len(one.objections), one.uncertainty_newton_metres, one.wrench.identity)
        )
    )
