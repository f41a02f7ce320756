"""One SQLite file: opened, kept durable, its troubles told in one sentence."""

from __future__ import annotations

import errno
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database as Tables

from ..errors import DiskFullError, StoreError
from ..said import said
from . import schema
from .upgrade import keep_old

FILE_NAME = "lastbolt.sqlite"
BUSY_S = 10.0
FULL = "the disk is full; free some room and send it again, nothing of it was recorded"
_IN_WORDS = (
    ("locked", "another program holds the records; try again in a moment, nothing of it was recorded"),
    ("readonly", "the records may not be written to; give the folder's owner the right to write"),
    ("unable to open", "the records cannot be opened; see that the folder exists and may be written to"),
    ("not a database", "the records' file is no database; put back the last backup"),
    ("malformed", "the records' file is damaged; put back the last backup"),
    ("disk I/O", "the disk refused; look at its cable, room and health, nothing of it was recorded"),
)


class Database:
    """A shop's database: one connection, used by one thread at a time; any number of processes."""

    def __init__(self, folder: Path) -> None:
        """Open or create the database of a folder, and bring it to today's version.

        Raises:
            StoreError: it cannot be opened, is damaged, or was written by a newer Lastbolt.
        """
        self._one_at_a_time = threading.RLock()
        with _told_in_words():
            folder.mkdir(parents=True, exist_ok=True)
            connection = sqlite3.connect(
                folder / FILE_NAME, timeout=BUSY_S, isolation_level=None, check_same_thread=False
            )
            try:
                connection.execute("PRAGMA journal_mode = WAL")
                connection.execute("PRAGMA synchronous = FULL")
                connection.execute("PRAGMA foreign_keys = ON")
                self._tables = Tables(connection, execute_plugins=False)
                keep_old(connection, folder / FILE_NAME)
                with self.writing() as tables:
                    schema.migrate(tables)
            except BaseException:
                connection.close()
                raise

    @contextmanager
    def reading(self) -> Iterator[Tables]:
        """Lend the connection for reading."""
        with self._one_at_a_time, _told_in_words():
            yield self._tables

    @contextmanager
    def writing(self) -> Iterator[Tables]:
        """Lend the connection for one transaction: all of it is on disk afterwards, or nothing is.

        Raises:
            StoreError: the disk or the database refused; nothing is half there.
        """
        with self._one_at_a_time, _told_in_words():
            self._tables.execute("BEGIN IMMEDIATE")
            try:
                yield self._tables
                self._tables.execute("COMMIT")
            except BaseException:
                if self._tables.conn.in_transaction:
                    self._tables.execute("ROLLBACK")
                raise

    def close(self) -> None:
        """Close the file; what was recorded stays."""
        with self._one_at_a_time:
            self._tables.conn.close()


@contextmanager
def _told_in_words() -> Iterator[None]:
    try:
        yield
    except (sqlite3.Error, OSError) as error:
        why = str(error)
        if "disk is full" in why or getattr(error, "errno", None) == errno.ENOSPC:
            raise DiskFullError(FULL) from error
        refused = said("the records refused: {why}; nothing of it was recorded", why=why)
        known = (words for sign, words in _IN_WORDS if sign.lower() in why.lower())
        raise StoreError(next(known, refused)) from error
