"""What goes over the wire about people, devices and held entries."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import Field, SecretStr

from ..people.rights import Role
from .wire import Wire

Name = Annotated[str, Field(min_length=1, max_length=60)]
Pin = Annotated[SecretStr, Field(min_length=1, max_length=200)]
Reason = Annotated[str, Field(min_length=1, max_length=500)]


class SignInWish(Wire):
    """A name and its PIN; `device` is what this phone calls itself, null at its first use."""

    name: Name
    pin: Pin
    device: str | None = Field(default=None, max_length=120)


class FirstLeadWish(Wire):
    """The first lead: the code that the server printed, and the name and PIN they choose."""

    code: str = Field(max_length=40)
    name: Name
    pin: Pin
    device: str | None = Field(default=None, max_length=120)


class HolderWish(Wire):
    """Who of those signed in holds the device now."""

    name: Name


class PinWish(Wire):
    """A new PIN in place of the old one."""

    old: Pin
    new: Pin


class PersonWish(Wire):
    """Somebody to be added."""

    name: Name
    role: Role
    pin: Pin


class RoleWish(Wire):
    """Another role."""

    role: Role


class NewPinWish(Wire):
    """A new PIN, given by a lead."""

    pin: Pin


class EndWish(Wire):
    """Cut a device off; lost, or only signed out from afar."""

    lost: bool


class WalkedWish(Wire):
    """The job in which a lead has looked at all that a device touched."""

    job: str


class DiscardWish(Wire):
    """Why a held entry is kept out of the record."""

    reason: Reason


class Somebody(Wire):
    """One person signed in on this device; after `until` the PIN is needed again."""

    name: str
    role: Role
    until: datetime


class Session(Wire):
    """Who is at this device; `state`: signed `in`, the `pin` is needed, `cut` off, or unknown (`out`)."""

    state: Literal["in", "pin", "cut", "out"]
    device: str | None
    last_seq: int = Field(description="the highest number that the journal has of this device, 0 for none")
    people: list[Somebody] = Field(description="those who are signed in, the one who gave the PIN last first")
    current: str | None = Field(description="who holds the device")
    needs_first_lead: bool


class Person(Wire):
    """One person of the shop; `failed` counts wrong PINs from devices that are not known."""

    name: str
    role: Role
    made: datetime
    gone: datetime | None
    failed: int


class Deed(Wire):
    """Something that was done to a person, a device or a held entry."""

    at: datetime
    by: str
    act: str
    about: str


class People(Wire):
    """Everybody, and what was done to people and devices, the newest first."""

    people: list[Person]
    deeds: list[Deed]


class Device(Wire):
    """A device as the lead sees it; `last_seq` and `last_received` are of its newest entry here."""

    device: str
    browser: str
    people: list[str]
    made: datetime
    seen: datetime
    last_seq: int | None
    last_received: datetime | None
    ended: datetime | None
    ended_by: str | None
    lost: bool
    held: int
    this: bool = Field(description="the device that asks")


class PhoneHeard(Wire):
    """A device that wrote in a job: who wrote on it last, when it was last heard of, and whether long ago."""

    device: str
    by: str
    heard: datetime
    quiet: bool


class Touched(Wire):
    """One thing that a device's entries name, what was said of it last, and whether it is on the list now."""

    job: str
    element: str
    kind: str
    by: str
    at: datetime
    on_the_list: bool


class Held(Wire):
    """One entry that waits for a lead."""

    id: str
    job: str
    device: str
    by: str
    why: str
    received: datetime
    entry: dict[str, Any]
