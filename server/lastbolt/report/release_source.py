"""All that a release record is made from, and the small things that its sections share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from ..journal.chain import Line
from ..journal.entries import AnyEntry
from ..journal.evidence import PhotoAdded
from ..journal.order import Happened
from ..state.fastener_set import Act
from ..state.job import Job
from .verdict import Verdict

Kind = TypeVar("Kind")


@dataclass(frozen=True, slots=True)
class Maker:
    """What made a record: version of the program, SHA-256 of the check set's source, and the public key."""

    version: str
    check_set: str
    public_key: str


@dataclass(frozen=True, slots=True)
class Source:
    """One job as of a line of its journal: `all_happened` with voided entries, `happened` without them."""

    job: Job
    verdict: Verdict
    lines: Sequence[Line]
    all_happened: Sequence[Happened]
    happened: Sequence[Happened]
    maker: Maker

    @property
    def entries(self) -> list[AnyEntry]:
        """Give the entries that count, in the order of what happened."""
        return [h.entry for h in self.happened]

    @property
    def head(self) -> str:
        """Give the newest hash of the chain."""
        return self.lines[-1].hash if self.lines else ""

    def of(self, kind: type[Kind]) -> list[Kind]:
        """Give the entries of a kind that count."""
        return [h.entry for h in self.happened if isinstance(h.entry, kind)]

    def last(self, kind: type[Kind]) -> Kind | None:
        """Give the last entry of a kind."""
        return next(iter(reversed(self.of(kind))), None)

    def hashes(self) -> dict[str, str]:
        """Give the SHA-256 of each photo by its name, where its bytes were named."""
        return {e.photo: e.sha256 for e in self.of(PhotoAdded) if e.sha256}


def moment(time: datetime | None) -> str:
    """Write a time to the minute with its offset; empty where there is none."""
    return f"{time:%Y-%m-%d %H:%M %z}".strip() if time else ""


def who_when(act: Act | None) -> str:
    """Say who and when, "-" where nobody did."""
    return f"{act.by}, {moment(act.time)}" if act else "-"


def joined(parts: Iterable[str], none: str = "-") -> str:
    """Write parts with commas."""
    return ", ".join(part for part in parts if part) or none
