"""Databases of earlier versions become those of today; the old one stays beside, as it was."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from lastbolt.actions.audit import audit
from lastbolt.errors import DiskFullError, StoreError
from lastbolt.settings import settings_from
from lastbolt.store import database, schema, upgrade
from lastbolt.wiring import wire

VERSIONS = sorted(Path(__file__).with_name("versions").glob("*.sql"), key=lambda path: int(path.stem))
PHOTO = b"not a true photo, but its bytes"
TABLES = "SELECT name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' ORDER BY name"


def old_shop(folder: Path, version: Path) -> Path:
    """Lay out a shop's folder as that version left it."""
    folder.mkdir()
    with closing(sqlite3.connect(folder / database.FILE_NAME)) as file:
        file.executescript(version.read_text())
        file.execute("PRAGMA journal_mode = WAL")
    return folder


def dumped(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as file:
        return [*sorted(file.iterdump()), str(file.execute("PRAGMA user_version").fetchone())]


def test_there_is_a_database_of_each_earlier_version():
    assert [int(path.stem) for path in VERSIONS] == list(range(1, len(schema.MIGRATIONS)))


@pytest.mark.parametrize("version", VERSIONS, ids=lambda path: path.stem)
def test_an_older_database_is_upgraded_and_the_old_one_kept(tmp_path, version):
    folder = old_shop(tmp_path / "shop", version)
    before = dumped(folder / database.FILE_NAME)
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
    wired.photos.put(PHOTO)
    found = [audit(wired.shop, job) for job in ("launch 1", "launch 2")]
    assert [each.is_whole for each in found] == [True, True]
    assert [each.entries for each in found] == [6, 1]
    assert wired.counters.take("T", 1) == [25]
    assert [bound.container for bound in wired.look_up.label("T0042E")] == ["T0042E"]
    wired.close()

    old = folder / f"{database.FILE_NAME}.version-{version.stem}"
    assert dumped(old) == before
    with closing(sqlite3.connect(folder / database.FILE_NAME)) as now:
        assert now.execute("PRAGMA user_version").fetchone() == (len(schema.MIGRATIONS),)
        assert now.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        upgraded = now.execute(TABLES).fetchall()
    database.Database(tmp_path / "new").close()
    with closing(sqlite3.connect(tmp_path / "new" / database.FILE_NAME)) as new:
        assert same_words(upgraded) == same_words(new.execute(TABLES).fetchall())


def same_words(rows):
    return [(name, re.sub(r"\s+", " ", sql or "")) for name, sql in rows]


def test_a_second_start_makes_no_second_copy(tmp_path):
    folder = old_shop(tmp_path / "shop", VERSIONS[0])
    database.Database(folder).close()
    kept = {path.name: path.stat().st_mtime_ns for path in folder.glob("*.version-*")}
    database.Database(folder).close()
    assert {path.name: path.stat().st_mtime_ns for path in folder.glob("*.version-*")} == kept
    assert len(kept) == 1


def test_without_room_for_the_copy_nothing_is_changed(tmp_path, monkeypatch):
    folder = old_shop(tmp_path / "shop", VERSIONS[0])
    before = dumped(folder / database.FILE_NAME)

    def full(half, path):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(upgrade, "settle", full)
    with pytest.raises(DiskFullError):
        database.Database(folder)
    assert dumped(folder / database.FILE_NAME) == before
    assert [path.name for path in folder.iterdir() if "version" in path.name] == []


def test_a_new_shop_has_no_old_one(tmp_path):
    database.Database(tmp_path / "shop").close()
    assert list((tmp_path / "shop").glob("*.version-*")) == []


def test_the_records_of_a_newer_program_are_refused_and_left_alone(tmp_path):
    database.Database(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / database.FILE_NAME)) as file:
        file.execute(f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
    before = dumped(tmp_path / database.FILE_NAME)
    with pytest.raises(StoreError, match="newer Lastbolt"):
        database.Database(tmp_path)
    assert dumped(tmp_path / database.FILE_NAME) == before
