"""Running numbers of labels: given out once, also to two programs at the same time."""

from __future__ import annotations

from .. import label_code
from ..errors import BadInputError
from ..said import said
from .database import Database


class CounterRows:
    """Gives out label numbers; those that the journal knows as bound are passed over."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def take(self, kind: str, count: int) -> list[int]:
        """Give the next `count` free numbers of a kind of label (its letter); they are never given again.

        Raises:
            BadInputError: so many numbers are not left.
        """
        with self._database.writing() as tables:
            found = tables.execute("SELECT value FROM counters WHERE name = ?", [kind]).fetchone()
            last = int(found[0]) if found else 0
            codes = tables.execute("SELECT DISTINCT label FROM labels WHERE substr(label, 1, 1) = ?", [kind])
            bound = {code for (code,) in codes.fetchall()}
            numbers: list[int] = []
            while len(numbers) < count:
                last += 1
                if last > label_code.HIGHEST_NUMBER:
                    raise BadInputError(
                        said(
                            "there are no {count} numbers of kind {kind} left; use another kind",
                            count=count,
                            kind=kind,
                        )
                    )
                if label_code.make(kind, last) not in bound:
                    numbers.append(last)
            tables.execute("INSERT OR REPLACE INTO counters VALUES (?, ?)", [kind, last])
            return numbers
