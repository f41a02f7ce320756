"""All of this room together, for whoever opens the shop's data."""

from __future__ import annotations

from dataclasses import dataclass

from .held import Held
from .pins import Hashing
from .ports import Clock, Rows
from .shop_people import ShopPeople
from .sign_in import SignIn


@dataclass(frozen=True, slots=True)
class People:
    """Signing in, the shop's people and devices, and what is held for a lead."""

    sign_in: SignIn
    shop: ShopPeople
    held: Held


def people_from(rows: Rows, hashing: Hashing, clock: Clock) -> People:
    """Put the room together."""
    sign_in = SignIn(rows, hashing, clock)
    return People(sign_in, ShopPeople(rows, hashing, clock, sign_in), Held(rows, clock))
