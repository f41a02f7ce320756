"""Who stands at a device when a request comes in from it; pure."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from datetime import datetime, timedelta

from ..errors import NotAllowedError
from ..roster import Device
from ..said import said
from .ports import read
from .rights import LEAST, Act, may

LOCKED_AFTER = timedelta(hours=12)
"""So long after a PIN was given a device shows nothing until it is given again (practice 5.8)."""


@dataclass(frozen=True, slots=True)
class Here:
    """One person on the device: `out_at` is when they signed out or left the shop, None while signed in."""

    key: str
    name: str
    role: str
    pin_at: datetime
    out_at: datetime | None

    def is_in(self, now: datetime) -> bool:
        """Tell whether this person may act here now."""
        return self.out_at is None and now - self.pin_at < LOCKED_AFTER


@dataclass(frozen=True, slots=True)
class Visit:
    """A device, whether it was cut off, everybody who signed in on it, and who holds it now."""

    device: str
    cut: bool
    people: tuple[Here, ...]
    holder: str
    now: datetime

    @property
    def inside(self) -> tuple[Here, ...]:
        """Give those who are signed in; nobody on a device that was cut off."""
        return () if self.cut else tuple(each for each in self.people if each.is_in(self.now))

    @property
    def current(self) -> Here | None:
        """Give who holds the device, else whoever gave the PIN last."""
        inside = self.inside
        return next((each for each in inside if each.key == self.holder), inside[0] if inside else None)

    def named(self, name: str) -> Here | None:
        """Give one who signed in here at any time, by the exact name."""
        return next((each for each in self.people if each.name == name), None)

    def person(self, act: Act) -> Here:
        """Give who holds the device, if that person may do this.

        Raises:
            NotAllowedError: says who may.
        """
        current = self.current
        if current is None or not may(current.role, act):
            who = current.name if current else said("Nobody")
            form = "{who} may not {what}; that takes a {role}."
            raise NotAllowedError(said(form, who=who, what=said(act.value), role=said(LEAST[act])))
        return current


def visit_of(device: Device, now: datetime) -> Visit:
    """Read a device's row; whoever left the shop counts as signed out."""
    people = tuple(
        Here(each.key, each.name, each.role, read(each.pin_at), read(out) if out else None)
        for each in device.people
        for out in (each.out_at or each.gone,)
    )
    return Visit(device.device, device.ended is not None, people, device.current, now)


def folded(name: str) -> str:
    """Fold a name so that two that look alike are one.

    >>> folded("  Ána  MARIA ") == folded("ána maria")
    True
    """
    return unicodedata.normalize("NFKC", " ".join(name.split())).casefold()
