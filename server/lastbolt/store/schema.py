"""The tables of a shop's database, and how an older database becomes one of today."""

from __future__ import annotations

from collections.abc import Callable
from sqlite3 import complete_statement

from sqlite_utils import Database as Tables

from ..errors import StoreError
from ..journal import GENESIS
from . import projections, search_index
from .desk_schema import RELEASES, SUMMARIES
from .people_schema import PEOPLE

ENTRIES = f"""
CREATE TABLE entries (
  job TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 1),
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  device TEXT NOT NULL,
  seq INTEGER NOT NULL CHECK (seq >= 1),
  received TEXT NOT NULL,
  prev TEXT NOT NULL CHECK (length(prev) = 64),
  hash TEXT NOT NULL CHECK (length(hash) = 64),
  raw TEXT NOT NULL,
  PRIMARY KEY (job, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX entries_of_a_kind ON entries (job, kind);
CREATE INDEX entries_of_a_device ON entries (device, seq);
CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries BEGIN
  SELECT RAISE(ABORT, 'an entry is never changed; void or replace it with another entry');
END;
CREATE TRIGGER entries_never_go BEFORE DELETE ON entries BEGIN
  SELECT RAISE(ABORT, 'an entry is never deleted; void it with another entry');
END;
CREATE TRIGGER entries_follow_one_another BEFORE INSERT ON entries
WHEN EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
  OR NEW.position IS NOT (SELECT coalesce(max(position), 0) + 1 FROM entries WHERE job = NEW.job)
  OR NEW.prev IS NOT coalesce(
    (SELECT hash FROM entries WHERE job = NEW.job ORDER BY position DESC LIMIT 1), '{GENESIS}')
BEGIN
  SELECT RAISE(ABORT, 'an entry goes to the end of its job and follows the one before it');
END;
"""
COUNTERS = """
CREATE TABLE counters (
  name TEXT PRIMARY KEY, value INTEGER NOT NULL CHECK (value >= 0)
) STRICT, WITHOUT ROWID;
"""


def _first(tables: Tables) -> None:
    for statement in statements(ENTRIES) + statements(COUNTERS):
        tables.execute(statement)
    projections.create(tables)


def _people(tables: Tables) -> None:
    for statement in statements(PEOPLE):
        tables.execute(statement)


def _desk(tables: Tables) -> None:
    for statement in (*statements(RELEASES), SUMMARIES):
        tables.execute(statement)
    search_index.rebuild(tables)


MIGRATIONS: tuple[Callable[[Tables], None], ...] = (_first, _people, _desk)
"""What leads from version n to n + 1; only ever added to."""


def migrate(tables: Tables) -> None:
    """Bring a database to today's version, inside the transaction that the caller opened.

    Raises:
        StoreError: a newer Lastbolt wrote it.
    """
    version = int(tables.execute("PRAGMA user_version").fetchone()[0])
    if version > len(MIGRATIONS):
        raise StoreError(
            "these records were written by a newer Lastbolt; update this one, nothing was changed"
        )
    for step in MIGRATIONS[version:]:
        step(tables)
    if version < len(MIGRATIONS):
        tables.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")


def statements(script: str) -> list[str]:
    """Split a script into its statements, triggers kept whole.

    >>> statements("CREATE TABLE a (b); CREATE TRIGGER c BEFORE UPDATE ON a BEGIN SELECT 1; END;")[1][-4:]
    'END;'
    """
    found, part = [], ""
    for piece in script.split(";"):
        part += piece + ";"
        if complete_statement(part):
            found.append(part.strip())
            part = ""
    return [statement for statement in found if statement != ";"]
