"""Whether a wrench was in calibration on the day it was used."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from enum import Enum

INTERVAL_MONTHS = 12
CYCLE_LIMIT = 5000
"""ISO 6789-1/-2:2017 where the owner has no scheme of his own, from memory and widely repeated."""


class CalibrationStanding(Enum):
    """How a wrench stood on a day."""

    CURRENT = "in calibration"
    OVERDUE = "overdue"
    TOO_MANY_CYCLES = "too many cycles"
    SUSPECT = "in doubt"
    NOT_KNOWN = "not known"


@dataclass(frozen=True)
class Calibration:
    """What is known of the last calibration; `due_on` is the shop's own date and wins over the interval.

    The interval runs from first use after calibration when that is known. `suspect_since` is set by a drop,
    an overload or a repair, for `suspect_reason`, and makes the wrench due at once.
    """

    calibrated_on: date | None = None
    first_used_on: date | None = None
    due_on: date | None = None
    cycle_limit: int = CYCLE_LIMIT
    interval_months: int = INTERVAL_MONTHS
    suspect_since: date | None = None
    suspect_reason: str = ""


@dataclass(frozen=True)
class CalibrationJudgement:
    """The standing on a day, the last day in calibration where known, and one sentence."""

    standing: CalibrationStanding
    due_on: date | None
    sentence: str

    @property
    def is_current(self) -> bool:
        """Whether the wrench may be used without a question."""
        return self.standing is CalibrationStanding.CURRENT


def calibration_due_on(calibration: Calibration) -> date | None:
    """The last day in calibration: the shop's own date, else first use (or calibration) + the interval.

    >>> calibration_due_on(Calibration(calibrated_on=date(2025, 3, 1)))
    datetime.date(2026, 3, 1)
    """
    if calibration.due_on or not calibration.calibrated_on:
        return calibration.due_on
    first = calibration.first_used_on
    start = first if first and first >= calibration.calibrated_on else calibration.calibrated_on
    return _add_months(start, calibration.interval_months)


def judge_calibration(calibration: Calibration, used_on: date, *, cycle: int = 0) -> CalibrationJudgement:
    """How the wrench stood when used on a day, at its n-th cycle since calibration (0 when not counted).

    Source: ISO 6789:2017 (from memory: 12 months or 5 000 cycles, and after overload, repair or drop);
    AC 43.13-1B §7-40 asks yearly and straight after abuse (read where quoted at vansairforce.net).
    """
    due = calibration_due_on(calibration)
    since = calibration.suspect_since
    if since and used_on >= since:
        reason = calibration.suspect_reason or "reported as in doubt"
        words = f"In doubt since {since.isoformat()} ({reason}): calibrate it before it is used again."
        return CalibrationJudgement(CalibrationStanding.SUSPECT, due, words)
    if due is None:
        words = "No calibration date is known: look for the certificate and enter it."
        return CalibrationJudgement(CalibrationStanding.NOT_KNOWN, None, words)
    if used_on > due:
        words = f"Calibration ran out on {due.isoformat()}: use another wrench or calibrate this one."
        return CalibrationJudgement(CalibrationStanding.OVERDUE, due, words)
    if cycle > calibration.cycle_limit:
        words = f"More than {calibration.cycle_limit} cycles since calibration: calibrate it."
        return CalibrationJudgement(CalibrationStanding.TOO_MANY_CYCLES, due, words)
    return CalibrationJudgement(CalibrationStanding.CURRENT, due, f"In calibration until {due.isoformat()}.")


def _add_months(day: date, months: int) -> date:
    """The same day of the month some months later, the last one where that month is shorter."""
    year, month0 = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month0 + 1, min(day.day, monthrange(year, month0 + 1)[1]))
