"""Setting a wrench that works through a crowfoot or an extension."""

import math
from dataclasses import dataclass

from lastbolt.errors import BadInputError
from lastbolt.said import said
from lastbolt.torque.unreadable import Unreadable
from lastbolt.units import Degrees, Millimetres, NewtonMetres

STRAIGHT_ON = Degrees(0.0)


@dataclass(frozen=True)
class Adapter:
    """A crowfoot or extension on a wrench, mm and degrees.

    `lever_mm` is L, centre of the grip to centre of the drive; `extension_mm` is E, centre of the drive to
    centre of the fastener, negative when it points back to the hand; `angle_degrees` is how far E is turned
    out of the line of the wrench (0 straight on, 90 square to it, 180 back).
    """

    lever_mm: Millimetres
    extension_mm: Millimetres
    angle_degrees: Degrees = STRAIGHT_ON

    def __post_init__(self) -> None:
        if reason := _find_trouble(self.lever_mm, self.extension_mm, angle_degrees=self.angle_degrees):
            raise BadInputError(reason)

    @property
    def effective_mm(self) -> Millimetres:
        """L + E·cos a: grip to fastener along the wrench."""
        turned = math.cos(math.radians(self.angle_degrees))
        return Millimetres(self.lever_mm + self.extension_mm * turned)


def make_adapter(
    lever_mm: Millimetres, extension_mm: Millimetres, *, angle_degrees: Degrees = STRAIGHT_ON
) -> Adapter | Unreadable:
    """An adapter from measured lengths, or why these lengths cannot be right.

    >>> make_adapter(0.0, 50.0).reason
    'L is 0 mm: measure from the middle of the grip to the middle of the drive.'
    """
    reason = _find_trouble(lever_mm, extension_mm, angle_degrees=angle_degrees)
    if reason:
        return Unreadable(f"L {lever_mm:g}, E {extension_mm:g}, {angle_degrees:g}°", reason)
    return Adapter(lever_mm, extension_mm, angle_degrees)


def _find_trouble(lever_mm: float, extension_mm: float, *, angle_degrees: float) -> str:
    if not all(map(math.isfinite, (lever_mm, extension_mm, angle_degrees))):
        return said("L, E and the angle must be plain numbers: measure them again.")
    if lever_mm <= 0:
        return said(
            "L is {lever} mm: measure from the middle of the grip to the middle of the drive.",
            lever=f"{lever_mm:g}",
        )
    if lever_mm + extension_mm * math.cos(math.radians(angle_degrees)) <= 1e-6 * lever_mm:
        return said(
            "The fastener lies at or behind the grip: use a shorter adapter or measure L and E again."
        )
    return ""


def setting_for_adapter(wanted_newton_metres: NewtonMetres, adapter: Adapter) -> NewtonMetres:
    """What to set so that the fastener gets the wanted torque: Tw = T·L / (L + E·cos a), N·m.

    Valid for a hand in the middle of the grip and a pull square to the wrench; at 90° nothing is corrected.
    Source: formula and numbers read in TM 1-1500-204-23-9 and NAVEDTRA 14315 (see also AC 43.13-1B §7-40h).

    >>> round(setting_for_adapter(70.0, Adapter(12.0, 2.0)), 3)
    60.0
    """
    return NewtonMetres(wanted_newton_metres * adapter.lever_mm / adapter.effective_mm)


def torque_through_adapter(shown_newton_metres: NewtonMetres, adapter: Adapter) -> NewtonMetres:
    """What the fastener got when the wrench showed or clicked at a value: T = Tw·(L + E·cos a) / L, N·m.

    >>> round(torque_through_adapter(60.0, Adapter(12.0, 2.0)), 3)
    70.0
    """
    return NewtonMetres(shown_newton_metres * adapter.effective_mm / adapter.lever_mm)
