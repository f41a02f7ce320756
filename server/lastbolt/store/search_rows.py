"""Finds entries by words: in jobs, machines, steps, sets, notes and whatever else a person wrote."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..report.search_words import query_words
from .database import Database

MOST = 200


@dataclass(frozen=True, slots=True)
class Hit:
    """One entry that was found: what it is about and says, by whom, when; and of which job."""

    job: str
    machine: str
    title: str
    about: str
    name: str
    said: str
    by: str
    at: str
    entry: str


@dataclass(frozen=True, slots=True)
class Hits:
    """What was found; `all_words` is false where nothing has all of the words and these have some."""

    words: tuple[str, ...]
    all_words: bool
    hits: tuple[Hit, ...]


class SearchRows:
    """Finds entries by words."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def find(self, asked: str, *, limit: int = 50) -> Hits:
        """Look for entries with all words of a question, else for those with some; the best first."""
        words = query_words(asked)
        if not words:
            return Hits(words, True, ())
        found = self._look(" AND ".join(_term(word) for word in words), limit)
        if found or len(words) == 1:
            return Hits(words, True, found)
        return Hits(words, False, self._look(" OR ".join(_term(word) for word in words), limit))

    def _look(self, query: str, limit: int) -> tuple[Hit, ...]:
        sql = (
            "SELECT search.job, jobs.machine, jobs.title, about, name, said, by, at, entry FROM search "
            "JOIN jobs ON jobs.job = search.job WHERE search MATCH ? ORDER BY rank, at DESC LIMIT ?"
        )
        with self._database.reading() as tables:
            rows: list[Any] = tables.execute(sql, [query, min(limit, MOST)]).fetchall()
        return tuple(Hit(*row) for row in rows)


def _term(word: str) -> str:
    """Write a word for the index's own language: whole, or as a beginning where it is no size."""
    quoted = '"' + word.replace('"', '""') + '"'
    is_size = word[:1] == "m" and word[1:2].isdigit()
    return quoted if is_size else f"{quoted} *"
