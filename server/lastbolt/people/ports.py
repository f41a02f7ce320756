"""What this room needs of the world outside: rows on disk, and the clock."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Protocol

from ..roster import Deed, Device, HeldEntry, LastEntry, Person

Clock = Callable[[], datetime]
"""Gives the time now, with its offset from UTC."""


class PeopleRows(Protocol):
    """People, failed tries, the first lead's code, and what was done to people."""

    def people(self) -> Sequence[Person]:
        """Give everybody."""

    def person(self, key: str) -> Person | None:
        """Give one person by the folded name."""

    def add(self, person: Person, *, by: str, code: str | None = None) -> None:
        """Add a person; with `code`, only as the first lead, and the code is spent."""

    def change(self, key: str, field: str, value: str | None, deed: Deed) -> None:
        """Set a person's `role`, `secret` or `gone`, and write down who did it."""

    def leads(self) -> int:
        """Count the leads who are here."""

    def deeds(self, most: int = 200) -> Sequence[Deed]:
        """Give what was done, the newest first."""

    def write_deed(self, deed: Deed) -> None:
        """Write down something that was done."""

    def tries(self, about: str) -> tuple[int, str | None]:
        """Give how many tries failed in a row, and when the last was."""

    def put_tries(self, about: str, person: str, failed: int, last: str) -> None:
        """Keep the number of failed tries."""

    def failed_tries(self) -> dict[str, int]:
        """Give the number of failed tries from everywhere, by the person's key."""

    def clear_tries(self, about: str | None = None, *, person: str | None = None) -> None:
        """Forget one count, or all of a person."""

    def put_first_code(self, kept: str, made: str) -> None:
        """Keep the code of the first lead."""

    def first_code(self) -> str | None:
        """Give what is kept of the first lead's code."""


class DeviceRows(Protocol):
    """Devices that are or were signed in."""

    def of_token(self, token: str) -> Device | None:
        """Give the device that holds the token with this SHA-256."""

    def named(self, device: str) -> Device | None:
        """Give a device by its name."""

    def all(self) -> Sequence[Device]:
        """Give every device, the one seen last first."""

    def put(self, device: Device) -> None:
        """Keep a device with its token."""

    def sign_in(self, device: str, person: str, at: str) -> None:
        """Put a person on a device as of now."""

    def sign_out(self, device: str, at: str, *, person: str | None = None) -> None:
        """Take a person off a device, or everybody."""

    def saw(self, device: str, at: str) -> None:
        """Keep when a device was last heard of."""

    def last_entry(self, device: str) -> LastEntry | None:
        """Give the device's newest entry in the journal."""

    def touched(self, device: str) -> Sequence[tuple[str, str]]:
        """Give the job and raw text of each entry of a device."""


class HeldRows(Protocol):
    """Entries that wait for a lead's eye."""

    def hold(self, rows: Sequence[HeldEntry]) -> None:
        """Keep entries."""

    def waiting(self, device: str | None = None) -> Sequence[HeldEntry]:
        """Give what nobody has settled yet."""

    def one(self, entry: str) -> HeldEntry | None:
        """Give one held entry."""

    def settle(self, row: HeldEntry) -> None:
        """Keep what became of an entry."""


@dataclass(frozen=True, slots=True)
class Rows:
    """All of them."""

    people: PeopleRows
    devices: DeviceRows
    held: HeldRows


def written(now: datetime) -> str:
    """Write a time as rows keep it: RFC 3339 in UTC, to the millisecond.

    >>> written(datetime(2026, 3, 9, 8, 0, tzinfo=UTC))
    '2026-03-09T08:00:00.000Z'
    """
    return now.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def read(text: str) -> datetime:
    """Read a time that `written` wrote."""
    return datetime.fromisoformat(text)
