"""Before an older database is changed to today's version, a copy of it is put beside it."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from ..whole_file import settle
from . import schema


def keep_old(connection: sqlite3.Connection, path: Path) -> Path | None:
    """Copy a database of an earlier version beside itself; None where there is nothing to keep.

    The copy is whole and closed in itself; its name says the version, and one that is there stays.

    Raises:
        sqlite3.Error, OSError: there is no room for it; the database is as it was.
    """
    version = int(connection.execute("PRAGMA user_version").fetchone()[0])
    old = path.with_name(f"{path.name}.version-{version}")
    if version == 0 or version >= len(schema.MIGRATIONS) or old.exists():
        return None
    half = old.with_name(f"{old.name}.arriving")
    half.unlink(missing_ok=True)
    try:
        connection.execute("VACUUM INTO ?", [str(half)])
        settle(half, old)
    finally:
        half.unlink(missing_ok=True)
    return old
