"""Which jobs hold entries of a kind that name something: for questions over all jobs."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .database import Database

_FIELD = re.compile(r"[a-z_]{1,40}")


class KindRows:
    """Finds jobs by what their entries name; what was voided is found too, and left to whoever asks."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def jobs_with(self, kind: str, field: str, values: Sequence[str]) -> list[tuple[str, int]]:
        """Give the jobs with entries of a kind whose field is one of the values, and how many.

        Those with the most of them come first.
        """
        assert _FIELD.fullmatch(field)
        if not values:
            return []
        marks = ", ".join("?" * len(values))
        named = f"json_extract(raw, '$.{field}')"
        sql = (
            f"SELECT job, count(DISTINCT {named}) AS n FROM entries WHERE kind = ? AND {named} IN ({marks}) "
            "GROUP BY job ORDER BY n DESC, job"
        )
        with self._database.reading() as tables:
            return [(job, int(n)) for job, n in tables.execute(sql, [kind, *values]).fetchall()]

    def jobs_of(self, kind: str) -> list[str]:
        """Give the jobs with any entry of a kind."""
        with self._database.reading() as tables:
            rows = tables.execute("SELECT DISTINCT job FROM entries WHERE kind = ? ORDER BY job", [kind])
            return [job for (job,) in rows.fetchall()]
