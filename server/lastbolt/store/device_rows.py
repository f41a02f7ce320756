"""Devices that are or were signed in, and by whom, on disk."""

from __future__ import annotations

from dataclasses import replace

from ..roster import Device, LastEntry, OnDevice
from .database import Database

_DEVICE = "device, token, browser, made, seen, current, ended, ended_by, lost"


class DeviceRows:
    """Reads and changes devices; times are RFC 3339 texts in UTC."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def of_token(self, token: str) -> Device | None:
        """Give the device that holds the token with this SHA-256."""
        return self._one("token", token)

    def named(self, device: str) -> Device | None:
        """Give a device by its name."""
        return self._one("device", device)

    def all(self) -> list[Device]:
        """Give every device, the one seen last first."""
        with self._database.reading() as tables:
            rows = tables.execute(f"SELECT {_DEVICE} FROM devices ORDER BY seen DESC").fetchall()
        return [self._with_people(_row(row)) for row in rows]

    def put(self, device: Device) -> None:
        """Keep a device with its token; people on it stay as they are."""
        values = [
            device.device, device.token, device.browser, device.made, device.seen, device.current,
            device.ended, device.ended_by, int(device.lost),
        ]  # fmt: skip
        with self._database.writing() as tables:
            changed = ", ".join(f"{name} = excluded.{name}" for name in _DEVICE.split(", ")[1:])
            tables.execute(
                f"INSERT INTO devices ({_DEVICE}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) "
                f"ON CONFLICT (device) DO UPDATE SET {changed}",
                values,
            )

    def sign_in(self, device: str, person: str, at: str) -> None:
        """Put a person on a device as of now."""
        with self._database.writing() as tables:
            tables.execute(
                "INSERT OR REPLACE INTO signed_in (device, person, pin_at, out_at) VALUES (?, ?, ?, NULL)",
                [device, person, at],
            )
            tables.execute("UPDATE devices SET current = ? WHERE device = ?", [person, device])

    def sign_out(self, device: str, at: str, *, person: str | None = None) -> None:
        """Take a person off a device, or everybody."""
        with self._database.writing() as tables:
            tables.execute(
                "UPDATE signed_in SET out_at = ? "
                "WHERE device = ? AND out_at IS NULL AND person = coalesce(?, person)",
                [at, device, person],
            )

    def saw(self, device: str, at: str) -> None:
        """Keep when a device was last heard of."""
        with self._database.writing() as tables:
            tables.execute("UPDATE devices SET seen = ? WHERE device = ?", [at, device])

    def last_entry(self, device: str) -> LastEntry | None:
        """Give the device's newest entry in the journal, by its own numbering."""
        newest = "SELECT seq, received FROM entries WHERE device = ? ORDER BY seq DESC LIMIT 1"
        with self._database.reading() as tables:
            row = tables.execute(newest, [device]).fetchone()
            return LastEntry(int(row[0]), str(row[1])) if row else None

    def touched(self, device: str) -> list[tuple[str, str]]:
        """Give the job and raw text of each entry of a device, in the order of its numbering."""
        with self._database.reading() as tables:
            rows = tables.execute("SELECT job, raw FROM entries WHERE device = ? ORDER BY seq", [device])
            return [(str(job), str(raw)) for job, raw in rows.fetchall()]

    def _one(self, field: str, value: str) -> Device | None:
        with self._database.reading() as tables:
            row = tables.execute(f"SELECT {_DEVICE} FROM devices WHERE {field} = ?", [value]).fetchone()
        return self._with_people(_row(row)) if row else None

    def _with_people(self, device: Device) -> Device:
        with self._database.reading() as tables:
            rows = tables.execute(
                "SELECT key, name, role, pin_at, out_at, gone FROM signed_in "
                "JOIN people ON people.key = signed_in.person WHERE device = ? ORDER BY pin_at DESC",
                [device.device],
            ).fetchall()
        return replace(device, people=tuple(OnDevice(*row) for row in rows))


def _row(row: tuple[str, ...]) -> Device:
    device, token, browser, made, seen, current, ended, ended_by, lost = row
    return Device(device, token, browser, made, seen, current, ended, ended_by, bool(lost))
