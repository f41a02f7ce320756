"""Whole lines of a job, sealed elsewhere, put into the journal with their places, times and hashes."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlite_utils import Database as Tables

from ..errors import ConflictError
from ..journal import Line, canonical
from ..said import said
from . import projections
from .database import Database

_COLUMNS = "job, position, id, kind, device, seq, received, prev, hash, raw"


class SealedRows:
    """Takes lines that another shop sealed; what is here already must be the same line."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def missing(self, job: str, lines: Sequence[Line]) -> int:
        """Tell how many of a job's lines are not here yet.

        Raises:
            ConflictError: names the first line that stands here with other content.
        """
        with self._database.reading() as tables:
            return len(_fresh(tables, job, lines))

    def put(self, job: str, lines: Sequence[Line]) -> int:
        """Append the lines that are not here, all of them or none, and tell how many; give sound lines only.

        Raises:
            ConflictError: names the first line that stands here with other content; nothing was recorded.
            StoreError: the disk or the database refused; nothing was recorded.
        """
        with self._database.writing() as tables:
            fresh = _fresh(tables, job, lines)
            for entry_id, line in fresh:
                tables.execute(f"INSERT INTO entries ({_COLUMNS}) VALUES ({_marks()})", _row(entry_id, line))
            projections.keep_up(tables, job, fresh)
            return len(fresh)


def _fresh(tables: Tables, job: str, lines: Sequence[Line]) -> list[tuple[str, Line]]:
    rows = tables.execute("SELECT position, hash FROM entries WHERE job = ?", [job])
    here: dict[int, str] = dict(rows.fetchall())
    fresh = []
    for line in lines:
        entry_id = str(UUID(line.entry["id"]))
        if line.position in here:
            if here[line.position] != line.hash:
                raise ConflictError(
                    said(
                        "entry {position} of {job} stands here with other content or in another "
                        "order (id {entry_id} came in); nothing was taken, for a job has one record only",
                        position=line.position,
                        job=job,
                        entry_id=entry_id,
                    )
                )
            continue
        elsewhere = "SELECT job, position FROM entries WHERE id = ?"
        if found := tables.execute(elsewhere, [entry_id]).fetchone():
            raise ConflictError(
                said(
                    "entry {entry_id} is here already with other content (job {job}, place {place}); "
                    "nothing was taken",
                    entry_id=entry_id,
                    job=found[0],
                    place=found[1],
                )
            )
        fresh.append((entry_id, line))
    return fresh


def _row(entry_id: str, line: Line) -> list[str | int]:
    raw = line.entry
    own = [line.job, line.position, entry_id, raw["kind"], raw["device"], raw["seq"]]
    return [*own, line.received, line.prev, line.hash, canonical(raw).decode()]


def _marks() -> str:
    return ", ".join("?" * (_COLUMNS.count(",") + 1))
