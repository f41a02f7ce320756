"""Records about people and their devices, as store, people and web hand them to one another; pure values."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Person:
    """One person; `key` is the folded name, `secret` what is kept of the PIN, `gone` when they left the shop.

    All times here are RFC 3339 texts in UTC.
    """

    key: str
    name: str
    role: str
    secret: str
    made: str
    gone: str | None = None


@dataclass(frozen=True, slots=True)
class Deed:
    """Something that was done to a person, a device or a held entry, by whom."""

    at: str
    by: str
    act: str
    about: str


@dataclass(frozen=True, slots=True)
class OnDevice:
    """One person on one device: when the PIN was last given there, and when they signed out."""

    key: str
    name: str
    role: str
    pin_at: str
    out_at: str | None
    gone: str | None


@dataclass(frozen=True, slots=True)
class Device:
    """One device; `token` is the SHA-256 of its token, `current` the key of the person who holds it."""

    device: str
    token: str
    browser: str
    made: str
    seen: str
    current: str
    ended: str | None = None
    ended_by: str | None = None
    lost: bool = False
    people: tuple[OnDevice, ...] = ()


@dataclass(frozen=True, slots=True)
class LastEntry:
    """The newest entry that the journal has of a device, by the device's own numbering."""

    seq: int
    received: str


@dataclass(frozen=True, slots=True)
class HeldEntry:
    """One entry as it came, why it is held, and what became of it."""

    id: str
    job: str
    device: str
    person: str
    why: str
    received: str
    raw: str
    settled: str | None = None
    settled_by: str | None = None
    outcome: str | None = None
    reason: str | None = None
