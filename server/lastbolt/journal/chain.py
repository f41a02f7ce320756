"""The hash chain over stored entries: seal a line, and name the first line that does not fit."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from .codec import Raw, canonical

GENESIS = "0" * 64
"""What stands before the first entry of a job."""


@dataclass(frozen=True, slots=True)
class Line:
    """One stored entry: its place in its job's journal, when the server got it, and its seal.

    `position` counts from 1; `received` is RFC 3339 in UTC; `hash` seals all of the others.
    """

    job: str
    position: int
    received: str
    prev: str
    hash: str
    entry: Raw

    def as_json(self) -> Raw:
        """Give the line as it stands in an exported journal."""
        return {
            "position": self.position,
            "received": self.received,
            "prev": self.prev,
            "hash": self.hash,
            "entry": self.entry,
        }


@dataclass(frozen=True, slots=True)
class Break:
    """Where a chain first does not fit, and why, in one sentence."""

    job: str
    position: int
    entry_id: str
    why: str


def seal(entry: Raw, *, position: int, received: str, prev: str) -> str:
    """Hash an entry together with its place, its time of arrival and the hash before it.

    SHA-256 over the RFC 8785 form, 64 lower-case hex digits.
    """
    sealed = {"entry": entry, "position": position, "received": received, "prev": prev}
    return hashlib.sha256(canonical(sealed)).hexdigest()


def first_break(lines: Iterable[Line]) -> Break | None:
    """Walk one job's lines in order and name the first that was changed, moved, lost or put in."""
    prev, expected = GENESIS, 1
    for line in lines:
        why = _fault(line, prev, expected)
        if why:
            return Break(line.job, line.position, str(line.entry.get("id", "?")), why)
        prev, expected = line.hash, expected + 1
    return None


def _fault(line: Line, prev: str, expected: int) -> str | None:
    if line.position != expected:
        return f"entry {expected} is missing or out of place: {line.position} stands there"
    if line.prev != prev:
        return f"entry {expected} does not follow the one before it"
    if line.hash != seal(line.entry, position=line.position, received=line.received, prev=line.prev):
        return f"entry {expected} was changed after it was recorded"
    return None
