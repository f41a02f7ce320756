import sqlite3

import pytest

from lastbolt.errors import StoreError
from lastbolt.store.database import FILE_NAME, Database
from lastbolt.store.schema import MIGRATIONS


def pragma(database, name):
    with database.reading() as tables:
        return tables.execute(f"PRAGMA {name}").fetchone()[0]


def test_commits_reach_the_disk_before_they_are_answered(tmp_path):
    database = Database(tmp_path)
    assert (pragma(database, "journal_mode"), pragma(database, "synchronous")) == ("wal", 2)
    assert (pragma(database, "foreign_keys"), pragma(database, "busy_timeout")) == (1, 10_000)
    database.close()


def test_a_new_database_gets_todays_version_and_an_opened_one_keeps_its_rows(tmp_path):
    database = Database(tmp_path / "deep" / "folder")
    assert pragma(database, "user_version") == len(MIGRATIONS)
    with database.writing() as tables:
        tables.execute("INSERT INTO counters VALUES ('T', 7)")
    database.close()
    again = Database(tmp_path / "deep" / "folder")
    with again.reading() as tables:
        assert tables.execute("SELECT * FROM counters").fetchall() == [("T", 7)]
    again.close()


def test_a_database_of_a_newer_program_is_left_alone(tmp_path):
    Database(tmp_path).close()
    connection = sqlite3.connect(tmp_path / FILE_NAME)
    connection.execute("PRAGMA user_version = 99")
    connection.close()
    with pytest.raises(StoreError, match="newer Lastbolt"):
        Database(tmp_path)


def test_a_file_that_is_no_database_is_told_in_a_sentence(tmp_path):
    (tmp_path / FILE_NAME).write_bytes(b"these are no records at all, just words" * 100)
    with pytest.raises(StoreError, match="put back the last backup"):
        Database(tmp_path)


def test_a_folder_that_cannot_be_made_is_told_in_a_sentence(tmp_path):
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(StoreError):
        Database(tmp_path / "taken")


def test_a_trouble_in_the_middle_undoes_the_whole_transaction(tmp_path):
    database = Database(tmp_path)
    with pytest.raises(StoreError), database.writing() as tables:
        tables.execute("INSERT INTO counters VALUES ('T', 7)")
        tables.execute("INSERT INTO counters VALUES ('B', -1)")
    with database.reading() as tables:
        assert tables.execute("SELECT * FROM counters").fetchall() == []
    database.close()


def test_a_lock_held_by_another_program_is_told_in_a_sentence(tmp_path):
    database = Database(tmp_path)
    with database.reading() as tables:
        tables.execute("PRAGMA busy_timeout = 50")
    other = sqlite3.connect(tmp_path / FILE_NAME, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreError, match="another program holds the records"), database.writing():
        pass
    other.close()
    with database.writing() as tables:
        tables.execute("INSERT INTO counters VALUES ('T', 1)")
    database.close()
