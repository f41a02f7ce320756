"""Writes entries one after another: ids from time and counter, one numbering for each device."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from datetime import datetime, timedelta, timezone
from typing import Any
from uuid import UUID

from lastbolt import label_code

ZONE = timezone(timedelta(hours=2))
DAYS = {"mon": 4, "tue": 5, "wed": 6, "thu": 7, "fri": 8}
"""Monday 4 May to Friday 8 May 2026."""
DEVICES = {"Ana": "phone Ana", "Ben": "phone Ben", "Ilse": "desk"}
ROLES = {"Ana": "tech", "Ben": "tech", "Ilse": "lead"}

FIRST_VIEW = 2048
"""Entries about views count from here, so that the others keep their ids whether views are told or not."""

Entry = dict[str, Any]
Manifest = dict[str, dict[str, Any]]


def moment(day: str, clock: str) -> datetime:
    """Give a moment of the week: `moment("mon", "08:05")`, with seconds if wanted."""
    hour, minute, second = (int(part) for part in f"{clock}:0".split(":")[:3])
    return datetime(2026, 5, DAYS[day], hour, minute, second, tzinfo=ZONE)


def tray(number: int) -> str:
    """Name a tray by the code of its label."""
    return label_code.make("T", number)


class Writer:
    """One variant of the job as it is being recorded; the photos are those of the manifest."""

    def __init__(
        self,
        job: str,
        machine: str,
        *,
        variant: int,
        faults: Iterable[str] = (),
        photos: Manifest | None = None,
    ) -> None:
        self.job, self.machine, self.variant = job, machine, variant
        self.faults = frozenset(faults)
        self.entries: list[Entry] = []
        self._told, self._viewed = 0, FIRST_VIEW
        self.taken: dict[str, str] = {}
        self._shots = {row["shot"]: row for row in (photos or {}).values()}
        self._seq: dict[str, int] = {}
        self._last: dict[str, datetime] = {}
        self._step: dict[str, str | None] = {}

    def has(self, fault: str) -> bool:
        """Tell whether this variant has a fault built in."""
        return fault in self.faults

    def add(self, by: str, at: datetime, kind: str, **fields: Any) -> str:
        """Record one entry and give its id; a device's clock never runs back."""
        self._told += 1
        return self._record(self._told, by, at, kind, fields)

    def _record(self, number: int, by: str, at: datetime, kind: str, fields: Entry) -> str:
        device = DEVICES[by]
        if at < self._last.get(device, at):
            raise ValueError(f"{device}: {kind} at {at} comes before its last entry")
        self._last[device] = at
        self._seq[device] = self._seq.get(device, 0) + 1
        entry: Entry = {
            "id": str(self._id(at, number)), "job": self.job, "device": device, "seq": self._seq[device],
            "at": at.isoformat(), "by": by, "role": ROLES[by], "kind": kind,
        }  # fmt: skip
        if self._step.get(by) and kind != "step-started":
            entry["step"] = self._step[by]
        self.entries.append(entry | fields)
        return str(entry["id"])

    def _id(self, at: datetime, number: int) -> UUID:
        """Build a UUIDv7 (RFC 9562) of the time in ms, the entry's number and a hash of job and number."""
        spread = hashlib.sha256(f"{self.variant}/{self.job}/{number}".encode()).digest()
        ms = int(at.timestamp() * 1000)
        value = ms << 80 | 0x7 << 76 | number << 64 | 0b10 << 62 | int.from_bytes(spread[:8], "big") >> 2
        return UUID(int=value)

    def start(self, by: str, at: datetime, name: str) -> None:
        """Begin a step; what this person records next belongs to it."""
        self._step[by] = name
        self.add(by, at, "step-started", name=name, step=name)

    def done(self, by: str, at: datetime, elements: Iterable[str] = ()) -> None:
        """Say that the running step is done, with the elements it put back."""
        name = self._step[by]
        self.add(by, at, "step-done", name=name, elements=list(elements))
        self._step[by] = None

    def photo(self, by: str, at: datetime, shot: str, *, container: str, **fields: Any) -> list[str]:
        """Record a photo of a container, if the manifest has it; give its name as a list for `photos`."""
        self.taken[shot] = at.isoformat()
        row = self._shots.get(shot)
        if row is None:
            return []
        name = row["sha256"]
        self.add(
            by, at, "photo-added", mode="scan", photo=name, shape="tray", sha256=name, width=row["width"],
            height=row["height"], container=container, taken_at=at.isoformat(),
            labels=row["labels"], **fields,
        )  # fmt: skip
        return [name]

    def view(self, by: str, at: datetime, place: str, *, shape: str, fault: str = "") -> None:
        """Record a photo of a place before or after, with its holes marked, if the manifest has it."""
        shot = f"{shape}-{place}" + ("-fault" if self.has(fault) else "")
        self.taken[shot] = at.isoformat()
        row = self._shots.get(shot)
        if row is None:
            return
        name, element = row["sha256"], row["element"]
        self._see(by, at, "photo-added", {
            "photo": name, "shape": shape, "sha256": name, "width": row["width"], "height": row["height"],
            "element": element, "taken_at": at.isoformat(),
        })  # fmt: skip
        for hole, x, y in row["pins"]:
            spot = {"photo": name, "element": element, "x": x, "y": y}
            self._see(by, at, "photo-pinned", spot | ({} if hole is None else {"hole": hole}))

    def _see(self, by: str, at: datetime, kind: str, fields: Entry) -> None:
        self._viewed += 1
        self._record(self._viewed, by, at, kind, fields)

    def lines(self) -> str:
        """Give the journal as JSON Lines, in the order of what happened."""
        ordered = sorted(self.entries, key=lambda e: (e["at"], e["id"]))
        return "".join(json.dumps(entry, ensure_ascii=False) + "\n" for entry in ordered)
