"""People, failed tries, the first lead's code, and what was done to people, on disk."""

from __future__ import annotations

from ..errors import ConflictError
from ..roster import Deed, Person
from ..said import said
from .database import Database

_PERSON = "key, name, role, secret, made, gone"


class PeopleRows:
    """Reads and changes people; times are RFC 3339 texts in UTC."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def people(self) -> list[Person]:
        """Give everybody, those who left too, by name."""
        with self._database.reading() as tables:
            rows = tables.execute(f"SELECT {_PERSON} FROM people ORDER BY gone IS NOT NULL, key")
            return [Person(*row) for row in rows.fetchall()]

    def person(self, key: str) -> Person | None:
        """Give one person by the folded name."""
        with self._database.reading() as tables:
            row = tables.execute(f"SELECT {_PERSON} FROM people WHERE key = ?", [key]).fetchone()
            return Person(*row) if row else None

    def add(self, person: Person, *, by: str, code: str | None = None) -> None:
        """Add a person; with `code`, only as the first lead, and the code is spent.

        Raises:
            ConflictError: there is somebody of that name, or the code is spent.
        """
        with self._database.writing() as tables:
            if tables.execute("SELECT 1 FROM people WHERE key = ?", [person.key]).fetchone():
                raise ConflictError(
                    said("there is a {name} already; add a letter or a surname", name=person.name)
                )
            if code is not None:
                if not tables.execute("SELECT 1 FROM first_lead WHERE code = ?", [code]).fetchone():
                    raise ConflictError("that code is spent; start the server again for a new one")
                tables.execute("DELETE FROM first_lead")
            row = [person.key, person.name, person.role, person.secret, person.made, person.gone]
            tables.execute(f"INSERT INTO people ({_PERSON}) VALUES (?, ?, ?, ?, ?, ?)", row)
            words = f"added as {person.role}"
            tables.execute(_DEED, [person.made, by, words, person.name])

    def change(self, key: str, field: str, value: str | None, deed: Deed) -> None:
        """Set a person's `role`, `secret` or `gone`, and write down who did it."""
        assert field in ("role", "secret", "gone")
        with self._database.writing() as tables:
            tables.execute(f"UPDATE people SET {field} = ? WHERE key = ?", [value, key])
            tables.execute(_DEED, [deed.at, deed.by, deed.act, deed.about])

    def leads(self) -> int:
        """Count the leads who are here."""
        with self._database.reading() as tables:
            counted = "SELECT count(*) FROM people WHERE role = 'lead' AND gone IS NULL"
            return int(tables.execute(counted).fetchone()[0])

    def deeds(self, most: int = 200) -> list[Deed]:
        """Give what was done to people and devices, the newest first."""
        with self._database.reading() as tables:
            rows = tables.execute(
                "SELECT at, by, act, about FROM people_deeds ORDER BY number DESC LIMIT ?", [most]
            )
            return [Deed(*row) for row in rows.fetchall()]

    def write_deed(self, deed: Deed) -> None:
        """Write down something that was done."""
        with self._database.writing() as tables:
            tables.execute(_DEED, [deed.at, deed.by, deed.act, deed.about])

    def tries(self, about: str) -> tuple[int, str | None]:
        """Give how many tries failed in a row, and when the last was."""
        with self._database.reading() as tables:
            row = tables.execute("SELECT failed, last FROM tries WHERE about = ?", [about]).fetchone()
            return (int(row[0]), row[1]) if row else (0, None)

    def put_tries(self, about: str, person: str, failed: int, last: str) -> None:
        """Keep the number of failed tries."""
        with self._database.writing() as tables:
            tables.execute("INSERT OR REPLACE INTO tries VALUES (?, ?, ?, ?)", [about, person, failed, last])

    def failed_tries(self) -> dict[str, int]:
        """Give the number of failed tries from everywhere, by the person's key."""
        with self._database.reading() as tables:
            rows = tables.execute("SELECT person, failed FROM tries WHERE about = 'person ' || person")
            return {person: int(failed) for person, failed in rows.fetchall()}

    def clear_tries(self, about: str | None = None, *, person: str | None = None) -> None:
        """Forget one count, or all of a person."""
        with self._database.writing() as tables:
            tables.execute("DELETE FROM tries WHERE about = ? OR person = ?", [about, person])

    def put_first_code(self, kept: str, made: str) -> None:
        """Keep the code of the first lead; one at a time."""
        with self._database.writing() as tables:
            tables.execute("INSERT OR REPLACE INTO first_lead VALUES (1, ?, ?)", [kept, made])

    def first_code(self) -> str | None:
        """Give what is kept of the first lead's code."""
        with self._database.reading() as tables:
            row = tables.execute("SELECT code FROM first_lead").fetchone()
            return str(row[0]) if row else None


_DEED = "INSERT INTO people_deeds (at, by, act, about) VALUES (?, ?, ?, ?)"
