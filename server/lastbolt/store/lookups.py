"""What the look-up tables say: which jobs there are, what a label is bound to, where a photo belongs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from .database import Database
from .projections import code_of


@dataclass(frozen=True, slots=True)
class JobRow:
    """One job as lists show it; `opened` and `last` are RFC 3339 texts."""

    job: str
    machine: str
    title: str
    level: int
    state: str
    opened: str | None
    last: str
    entries: int


@dataclass(frozen=True, slots=True)
class LabelRow:
    """A label, and what bears or bore it."""

    label: str
    text: str | None
    job: str
    container: str
    container_kind: str
    step: str | None
    retired: bool
    entry: str


@dataclass(frozen=True, slots=True)
class PhotoRow:
    """A photo in a job, by the entry that added it first."""

    sha256: str
    job: str
    photo: str
    container: str | None
    step: str | None
    received: str
    entry: str


class LookupRows:
    """Reads the look-up tables."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def jobs(self) -> list[JobRow]:
        """Give all jobs, the one last written to first."""
        return [JobRow(*row) for row in self._rows("SELECT * FROM jobs ORDER BY last DESC, job")]

    def job(self, name: str) -> JobRow | None:
        """Give one job."""
        return next((JobRow(*row) for row in self._rows("SELECT * FROM jobs WHERE job = ?", name)), None)

    def label(self, text: str) -> list[LabelRow]:
        """Give what a label is or was bound to, from its code however written or from its whole payload."""
        where = "SELECT * FROM labels WHERE label = ? OR text = ? ORDER BY retired, job, container"
        rows = [LabelRow(*row) for row in self._rows(where, code_of(text), text)]
        return [replace(row, retired=bool(row.retired)) for row in rows]

    def photos(self, sha256: str) -> list[PhotoRow]:
        """Give the jobs that a photo is in."""
        return [
            PhotoRow(*row) for row in self._rows("SELECT * FROM photos WHERE sha256 = ? ORDER BY job", sha256)
        ]

    def photos_of(self, job: str) -> list[PhotoRow]:
        """Give the photos of a job in the order of their arrival."""
        where = "SELECT * FROM photos WHERE job = ? ORDER BY received, entry"
        return [PhotoRow(*row) for row in self._rows(where, job)]

    def _rows(self, sql: str, *values: str) -> list[Any]:
        with self._database.reading() as tables:
            return tables.execute(sql, values).fetchall()
