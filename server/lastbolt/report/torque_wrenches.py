"""The torque wrenches that a job has registered, and which of them suit a value."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from ..state import elements
from ..torque.calibration import Calibration
from ..torque.specification import TorqueWindow
from ..torque.wrench import Wrench, WrenchKind, rank_wrenches
from ..units import NewtonMetres

KINDS = {
    "click": WrenchKind.CLICK,
    "indicating": WrenchKind.INDICATING,
    "digital": WrenchKind.INDICATING,
    "angle": WrenchKind.INDICATING,
    "screwdriver": WrenchKind.CLICK_SCREWDRIVER,
}


@dataclass(frozen=True, slots=True)
class WrenchSuit:
    """A registered wrench for a value: what to set, how far it may be off (± N·m), what speaks against it."""

    wrench: str
    setting_nm: float | None
    uncertainty_nm: float | None
    objections: tuple[str, ...]

    @property
    def suits(self) -> bool:
        """Whether nothing speaks against it."""
        return not self.objections


def registered_wrench(known: elements.Wrench | None) -> Wrench | None:
    """Give a wrench of the record as the torque room takes it; None where its range is not recorded."""
    described = known.described if known else None
    if known is None or described is None or described.max_nm is None:
        return None
    return Wrench(
        identity=known.name,
        kind=KINDS[described.wrench_kind],
        high_newton_metres=NewtonMetres(described.max_nm),
        low_newton_metres=None if described.min_nm is None else NewtonMetres(described.min_nm),
        calibration=_calibration(known),
    )


def _calibration(known: elements.Wrench) -> Calibration:
    """Dates of a calibration; the last day in it is the one before which it is due."""
    return Calibration(
        calibrated_on=known.good_since.date() if known.good_since else None,
        due_on=(known.due - timedelta(microseconds=1)).date() if known.due else None,
        suspect_since=known.suspect_since.date() if known.suspect_since else None,
    )


def suiting_wrenches(
    known: Iterable[elements.Wrench], window: TorqueWindow, *, on: date
) -> tuple[WrenchSuit, ...]:
    """Judge every registered wrench for a window on a day, the best first, those of unknown range last.

    One that was only named in a pull is not registered. Of two that suit, the one that can be set to the
    middle of the window comes first.
    """
    ranged: list[Wrench] = []
    unknown: list[WrenchSuit] = []
    for one in known:
        wrench = registered_wrench(one)
        if one.described is None:
            continue
        if wrench:
            ranged.append(wrench)
        else:
            words = f"The range of {one.name} is not recorded: read it off the wrench and enter it."
            unknown.append(WrenchSuit(one.name, None, None, (words,)))
    choices = sorted(
        rank_wrenches(ranged, window, used_on=on),
        key=lambda choice: (
            len(choice.objections),
            choice.setting_newton_metres != window.middle_newton_metres,
        ),
    )
    ranked = (
        WrenchSuit(
            choice.wrench.identity,
            choice.setting_newton_metres,
            choice.uncertainty_newton_metres,
            tuple(objection.sentence for objection in choice.objections),
        )
        for choice in choices
    )
    return (*ranked, *unknown)
