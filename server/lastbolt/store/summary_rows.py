"""One text for each job, kept so that a server that starts need not fold all jobs; made anew at will."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from .database import Database


class SummaryRow(NamedTuple):
    """One job's summary: at which head, made by which check set, and its text."""

    job: str
    head: str
    made: str
    text: str


class SummaryRows:
    """Reads and keeps the texts."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def all(self) -> list[SummaryRow]:
        """Give everything that is kept."""
        with self._database.reading() as tables:
            return [SummaryRow(*row) for row in tables.execute("SELECT * FROM summaries").fetchall()]

    def put(self, summaries: Iterable[tuple[str, str, str, str]]) -> None:
        """Keep texts in place of those before."""
        rows = [tuple(one) for one in summaries]
        with self._database.writing() as tables:
            tables.conn.executemany("INSERT OR REPLACE INTO summaries VALUES (?, ?, ?, ?)", rows)
