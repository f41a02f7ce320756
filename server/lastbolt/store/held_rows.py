"""Entries that wait for a lead's eye, on disk; none is ever deleted."""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import ConflictError
from ..roster import HeldEntry
from ..said import said
from .database import Database

_HELD = "id, job, device, person, why, received, raw, settled, settled_by, outcome, reason"


class HeldRows:
    """Keeps entries apart from the journal until somebody settles them."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def hold(self, rows: Sequence[HeldEntry]) -> None:
        """Keep entries; one that is here already, with the same content, stays as it is.

        Raises:
            ConflictError: an id is held with other content; nothing was kept.
        """
        with self._database.writing() as tables:
            for row in rows:
                found = tables.execute("SELECT raw FROM held WHERE id = ?", [row.id]).fetchone()
                if found and found[0] != row.raw:
                    raise ConflictError(said("entry {id} is held here already with other content", id=row.id))
                if not found:
                    values = [row.id, row.job, row.device, row.person, row.why, row.received, row.raw]
                    tables.execute(
                        f"INSERT INTO held ({_HELD}) VALUES (?, ?, ?, ?, ?, ?, ?, NULL, NULL, NULL, NULL)",
                        values,
                    )

    def waiting(self, device: str | None = None) -> list[HeldEntry]:
        """Give what nobody has settled yet, in the order in which it came."""
        where = "settled IS NULL AND device = coalesce(?, device)"
        return self._rows(f"SELECT {_HELD} FROM held WHERE {where} ORDER BY received, id", device)

    def one(self, entry: str) -> HeldEntry | None:
        """Give one held entry, settled or not."""
        return next(iter(self._rows(f"SELECT {_HELD} FROM held WHERE id = ?", entry)), None)

    def settle(self, row: HeldEntry) -> None:
        """Keep what became of an entry, with who said so."""
        with self._database.writing() as tables:
            tables.execute(
                "UPDATE held SET settled = ?, settled_by = ?, outcome = ?, reason = ? "
                "WHERE id = ? AND settled IS NULL",
                [row.settled, row.settled_by, row.outcome, row.reason, row.id],
            )

    def _rows(self, sql: str, *values: str | None) -> list[HeldEntry]:
        with self._database.reading() as tables:
            return [HeldEntry(*row) for row in tables.execute(sql, values).fetchall()]
