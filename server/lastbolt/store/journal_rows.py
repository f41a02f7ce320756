"""The journal on disk: entries appended to the end of their job, read in order, never changed."""

from __future__ import annotations

import json
from collections.abc import Sequence
from uuid import UUID

from sqlite_utils import Database as Tables

from ..errors import BadInputError, ConflictError, DamagedError
from ..journal import GENESIS, Line, Raw, canonical, seal
from ..said import said
from . import projections
from .database import Database

_COLUMNS = "job, position, received, prev, hash, raw"


class JournalRows:
    """Append and read stored entries; what an append has given back is on disk."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._heads: tuple[tuple[int, int], dict[str, str]] | None = None

    def append(self, job: str, entries: Sequence[Raw], *, received: str) -> list[Line]:
        """Put entries at the end of a job, all of them or none, and give their lines in the same order.

        An entry that is here already, with equal content, gives the line that it has.

        Raises:
            ConflictError: an id stands here with other content.
            BadInputError: an entry would not read back as it was written (a number above 2^53).
            StoreError: the disk or the database refused; nothing was recorded.
        """
        with self._database.writing() as tables:
            return _append(tables, job, entries, received=received)

    def append_own(
        self, job: str, entries: Sequence[Raw], *, received: str, new_photo: str | None = None
    ) -> list[Line]:
        """Put entries that come without `seq` at the end of a job; each gets the next number of its device.

        With `new_photo`, a SHA-256, nothing is recorded and nothing comes back when the job has that photo.
        """
        with self._database.writing() as tables:
            known = "SELECT 1 FROM photos WHERE sha256 = ? AND job = ?"
            if new_photo and tables.execute(known, [new_photo, job]).fetchone():
                return []
            return _append(tables, job, _numbered(tables, entries), received=received)

    def lines(self, job: str) -> list[Line]:
        """Give a job's lines in the order of their positions; none for a job that is not here."""
        with self._database.reading() as tables:
            rows = tables.execute(f"SELECT {_COLUMNS} FROM entries WHERE job = ? ORDER BY position", [job])
            return [_line(*row) for row in rows.fetchall()]

    def head(self, job: str) -> str:
        """Give the newest hash of a job's chain; for a job that is not here, what stands before the first."""
        with self._database.reading() as tables:
            return _end(tables, job)[1]

    def heads(self) -> dict[str, str]:
        """Give every job's newest hash, by the job's name.

        They are read again only when something was written, here or by another program: SQLite counts both.
        """
        newest = "SELECT hash FROM entries WHERE job = jobs.job ORDER BY position DESC LIMIT 1"
        with self._database.reading() as tables:
            elsewhere = int(tables.execute("PRAGMA data_version").fetchone()[0])
            stamp = (elsewhere, tables.conn.total_changes)
            if self._heads is None or self._heads[0] != stamp:
                found = tables.execute(f"SELECT job, ({newest}) FROM jobs ORDER BY job").fetchall()
                self._heads = stamp, dict(found)
            return dict(self._heads[1])

    def job_names(self) -> list[str]:
        """Name all jobs, in the order of the alphabet."""
        with self._database.reading() as tables:
            return [name for (name,) in tables.execute("SELECT DISTINCT job FROM entries ORDER BY job")]

    def rebuild(self) -> None:
        """Throw the look-up tables away and compute them from the journal."""
        with self._database.writing() as tables:
            projections.rebuild(tables)


def damaged(job: str, position: int) -> DamagedError:
    """Give the error for a stored entry that cannot be read as what was recorded."""
    return DamagedError(
        said(
            "entry {position} of the job {job} is not what was recorded; look with lastbolt audit, "
            "then put back the last backup",
            position=position,
            job=repr(job),
        )
    )


def _append(tables: Tables, job: str, entries: Sequence[Raw], *, received: str) -> list[Line]:
    position, prev = _end(tables, job)
    given: list[Line] = []
    fresh: list[tuple[str, Line]] = []
    for raw in entries:
        entry_id, text = str(UUID(raw["id"])), canonical(raw)
        stands = tables.execute(f"SELECT {_COLUMNS} FROM entries WHERE id = ?", [entry_id]).fetchone()
        if stands:
            given.append(_same(_line(*stands), text))
            continue
        position += 1
        stored = json.loads(text)
        digest = seal(stored, position=position, received=received, prev=prev)
        tables.execute(
            "INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [
                job,
                position,
                entry_id,
                raw["kind"],
                raw["device"],
                raw["seq"],
                received,
                prev,
                digest,
                text.decode(),
            ],
        )
        fresh.append((entry_id, Line(job, position, received, prev, digest, stored)))
        given.append(fresh[-1][1])
        prev = digest
    try:
        projections.keep_up(tables, job, fresh)
    except (BadInputError, ValueError) as error:
        raise _damaged_record(job) from error
    return given


def _damaged_record(job: str) -> DamagedError:
    return DamagedError(
        said(
            "the record of the job {job} is damaged; lastbolt audit names the entry, put back "
            "the last backup; nothing of this was recorded",
            job=repr(job),
        )
    )


def _same(line: Line, text: bytes) -> Line:
    if canonical(line.entry) == text:
        return line
    raise ConflictError(
        said(
            "entry {id} is here already with other content (job {job}, place {position}); record a "
            "replacement under an id of its own instead",
            id=line.entry["id"],
            job=line.job,
            position=line.position,
        )
    )


def _numbered(tables: Tables, entries: Sequence[Raw]) -> list[Raw]:
    following: dict[str, int] = {}
    numbered = []
    for raw in entries:
        device = raw["device"]
        if device not in following:
            newest = tables.execute("SELECT max(seq) FROM entries WHERE device = ?", [device]).fetchone()[0]
            following[device] = (newest or 0) + 1
        numbered.append({**raw, "seq": following[device]})
        following[device] += 1
    return numbered


def _end(tables: Tables, job: str) -> tuple[int, str]:
    newest = "SELECT position, hash FROM entries WHERE job = ? ORDER BY position DESC LIMIT 1"
    found = tables.execute(newest, [job]).fetchone()
    return (int(found[0]), str(found[1])) if found else (0, GENESIS)


def _line(*row: str) -> Line:
    job, position, received, prev, digest, raw = row
    try:
        return Line(job, int(position), received, prev, digest, json.loads(raw))
    except (ValueError, RecursionError) as error:
        raise damaged(job, int(position)) from error
