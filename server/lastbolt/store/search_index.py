"""What can be found by words: an index of full text, kept up with the journal and made anew from it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence

from sqlite_utils import Database as Tables

from ..journal import Happened, Line, effective, entry_from, in_order
from ..journal.order import CORRECTIONS
from ..report.search_words import search_text


def create(tables: Tables) -> None:
    """Make the index, empty; an older one goes."""
    tables.execute("DROP TABLE IF EXISTS search")
    tables.execute(
        "CREATE VIRTUAL TABLE search USING fts5(words, job UNINDEXED, about UNINDEXED, name UNINDEXED, "
        "said UNINDEXED, by UNINDEXED, at UNINDEXED, entry UNINDEXED, "
        "tokenize = 'unicode61 remove_diacritics 2')"
    )


def rebuild(tables: Tables) -> None:
    """Throw the index away and compute it from the journal, inside the caller's transaction."""
    create(tables)
    for (job,) in tables.execute("SELECT DISTINCT job FROM entries").fetchall():
        _index_anew(tables, job)


def keep_up(tables: Tables, job: str, lines: Sequence[tuple[str, Line]]) -> None:
    """Bring the index up to date after an append; each line comes with its entry's plain id.

    After a correction all of the job is indexed anew: what was voided is not found any more.
    """
    if any(line.entry["kind"] in CORRECTIONS for _, line in lines):
        tables.execute("DELETE FROM search WHERE job = ?", [job])
        _index_anew(tables, job)
        return
    _put(tables, in_order(entry_from(line.entry) for _, line in lines))


def _index_anew(tables: Tables, job: str) -> None:
    raws = tables.execute("SELECT raw FROM entries WHERE job = ? ORDER BY position", [job]).fetchall()
    _put(tables, effective(in_order(entry_from(json.loads(raw)) for (raw,) in raws)))


def _put(tables: Tables, happened: Iterable[Happened]) -> None:
    for h in happened:
        found = search_text(h.entry)
        if found is not None:
            e = h.entry
            tables.execute(
                "INSERT INTO search VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                [
                    found.words,
                    e.job,
                    found.about,
                    found.name,
                    found.said,
                    e.by,
                    h.time.isoformat(),
                    str(e.id),
                ],
            )
