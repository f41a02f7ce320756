"""Whether a torque can be right for a thread; it warns and asks, and never fills a value in."""

import math
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from lastbolt.torque.agreement import UnitSlip, unit_slips
from lastbolt.torque.assembly import ESTIMATE_MARK, estimate_assembly
from lastbolt.torque.strength import property_class
from lastbolt.torque.threads import MetricThread
from lastbolt.torque.torque_unit import TorqueUnit
from lastbolt.units import NewtonMetres

SOFT_LOW_SHARE = 0.5
SOFT_HIGH_SHARE = 1.5
"""Soft band as shares of the µ 0.12 value; all workshop tables read for it lie within 0.86–1.19."""

_MIDDLE_CLASS = "8.8"


class PlausibilityVerdict(Enum):
    """What can be said of a value; only IMPOSSIBLE is a strong word, the low side is never more than LOW."""

    QUIET = "nothing odd"
    LOW = "lower than usual"
    HIGH = "higher than usual"
    IMPOSSIBLE = "cannot be right for this thread"
    NOT_JUDGED = "not judged"


class Exemption(Enum):
    """Why a low value is legitimate."""

    ANGLE_FOLLOWS = "an angle follows"
    TORQUE_FOLLOWS = "a later stage has the full torque"
    TORQUE_TO_YIELD = "tightened to yield"
    SOFT_JOINT = "aluminium, plastic, gasket or other soft joint"


@dataclass(frozen=True)
class TorqueBand:
    """Two ends in N·m, an estimate."""

    low_newton_metres: NewtonMetres
    high_newton_metres: NewtonMetres

    def holds(self, value_newton_metres: float) -> bool:
        """Whether a value lies inside, ends included."""
        return self.low_newton_metres <= value_newton_metres <= self.high_newton_metres


@dataclass(frozen=True)
class Plausibility:
    """A verdict with its bands, the likely unit slips, a sentence (empty when quiet) and the mark."""

    verdict: PlausibilityVerdict
    hard_band: TorqueBand | None
    soft_band: TorqueBand | None
    hints: tuple[UnitSlip, ...]
    sentence: str
    mark: str = ESTIMATE_MARK


def hard_band(thread: MetricThread) -> TorqueBand | None:
    """From class 4.6 at 50 % of yield, µ 0.08, to class 12.9 at full yield, µ 0.20; None where not listed.

    Long form of VDI 2230; valid for plain hexagon heads on medium holes, M3 to M24. Own rule, no source.

    >>> from lastbolt.torque.threads import coarse_thread
    >>> round(hard_band(coarse_thread(6)).high_newton_metres, 1)
    26.9
    """
    low = _estimate_torque(thread, "4.6", friction=0.08, utilisation=0.5)
    high = _estimate_torque(thread, "12.9", friction=0.20, utilisation=1.0)
    return None if low is None or high is None else TorqueBand(low, high)


def usual_torque(thread: MetricThread, class_name: str) -> NewtonMetres | None:
    """The long-form torque at 90 % of yield and µ 0.12, N·m: to compare with, never to fill in."""
    return _estimate_torque(thread, class_name, friction=0.12, utilisation=0.9)


@lru_cache(maxsize=1024)
def _estimate_torque(
    thread: MetricThread, class_name: str, *, friction: float, utilisation: float
) -> NewtonMetres | None:
    strength = property_class(class_name, thread.diameter_mm)
    if strength is None:
        return None
    estimate = estimate_assembly(thread, strength.yield_mpa, friction=friction, utilisation=utilisation)
    return estimate.torque_newton_metres if estimate else None


def soft_band(thread: MetricThread, class_name: str) -> TorqueBand | None:
    """0.5 to 1.5 times the usual torque of a class; None when the class or the head is not listed."""
    usual = usual_torque(thread, class_name)
    if usual is None:
        return None
    return TorqueBand(NewtonMetres(usual * SOFT_LOW_SHARE), NewtonMetres(usual * SOFT_HIGH_SHARE))


def judge_torque(
    value_newton_metres: NewtonMetres,
    thread: MetricThread,
    *,
    class_name: str = "",
    exemptions: frozenset[Exemption] = frozenset(),
    unit: TorqueUnit | None = None,
) -> Plausibility:
    """Judge a value against thread and property class; `unit` is the one it was typed in, for the hint.

    An unknown class is judged by the hard band alone. Any exemption silences the low side.

    >>> from lastbolt.torque.threads import coarse_thread
    >>> judge_torque(100.0, coarse_thread(6)).verdict.value
    'cannot be right for this thread'
    >>> judge_torque(10.0, coarse_thread(6), class_name="8.8").verdict.value
    'nothing odd'
    """
    hard, soft = hard_band(thread), soft_band(thread, class_name)
    if hard is None:
        words = f"{thread.name} is not among the threads that can be judged: compare with the manual's page."
        return Plausibility(PlausibilityVerdict.NOT_JUDGED, None, None, (), words)
    verdict = _find_verdict(value_newton_metres, hard, soft=soft, is_low_allowed=bool(exemptions))
    if verdict is PlausibilityVerdict.QUIET:
        return Plausibility(verdict, hard, soft, (), "")
    usual = usual_torque(thread, class_name) or usual_torque(thread, _MIDDLE_CLASS) or hard.high_newton_metres
    hints = _find_hints(value_newton_metres, soft or hard, usual=usual, unit=unit)
    what = f"{thread.name} {class_name}".strip()
    words = _describe(verdict, value_newton_metres, what=what, hard=hard, soft=soft)
    asked = " or ".join(slip.question.removesuffix("?") for slip in hints)
    question = f" Perhaps {asked}?" if hints else ""
    return Plausibility(verdict, hard, soft, hints, f"{words}{question} {ESTIMATE_MARK}")


def _find_verdict(
    value: float, hard: TorqueBand, *, soft: TorqueBand | None, is_low_allowed: bool
) -> PlausibilityVerdict:
    if value > hard.high_newton_metres:
        return PlausibilityVerdict.IMPOSSIBLE
    if soft and value > soft.high_newton_metres:
        return PlausibilityVerdict.HIGH
    if value < (soft or hard).low_newton_metres and not is_low_allowed:
        return PlausibilityVerdict.LOW
    return PlausibilityVerdict.QUIET


def _find_hints(
    value: float, band: TorqueBand, *, usual: float, unit: TorqueUnit | None
) -> tuple[UnitSlip, ...]:
    """The slips that would bring the value into the band, the nearest to the usual value first."""
    likely = [slip for slip in unit_slips(unit) if band.holds(value * slip.factor)]
    return tuple(sorted(likely, key=lambda slip: abs(math.log(value * slip.factor / usual))))


def _describe(
    verdict: PlausibilityVerdict, value: float, *, what: str, hard: TorqueBand, soft: TorqueBand | None
) -> str:
    shown = f"{value:.4g} N·m"
    if verdict is PlausibilityVerdict.IMPOSSIBLE:
        top = f"{hard.high_newton_metres:.3g} N·m"
        return f"{shown} cannot be right for {what}: even a class 12.9 bolt would yield above about {top}."
    band = soft or hard
    span = f"{band.low_newton_metres:.3g} to {band.high_newton_metres:.3g} N·m"
    return f"{shown} is {verdict.value} for {what} (about {span}): look at the page again."
