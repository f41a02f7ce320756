"""Backups by the hour: made when they are due, their age said, a failed one said in sight."""

import threading

import pytest
from tests.builders import Told

from lastbolt.actions.record import record
from lastbolt.actions.regular_backup import BackupPlan, RegularBackup
from lastbolt.store.backup_files import read_held


@pytest.fixture
def place(tmp_path):
    return tmp_path / "second disk"


@pytest.fixture
def regular(shop, wired, clock, place):
    record(shop.journal, clock, Told(level=1).raws)
    return RegularBackup(shop, wired.backups, BackupPlan(place, 24))


def test_without_a_plan_that_is_said(shop, wired):
    status = RegularBackup(shop, wired.backups, None).status()
    assert status.needs_a_person and "LASTBOLT_BACKUP" in status.sentence


def test_a_backup_is_made_when_it_is_due_and_its_age_is_said(regular, clock, place):
    assert regular.status().sentence == "No backup was made yet." and regular.status().needs_a_person
    assert regular.run_if_due() is True
    assert read_held(place).entries == 1
    clock.move(hours=5)
    assert regular.run_if_due() is False
    status = regular.status()
    assert (status.made, status.needs_a_person) == ("2026-03-09T08:00:00.000Z", False)
    assert status.sentence == "The last backup was made 5 hours ago."
    clock.move(hours=19)
    assert regular.run_if_due() is True
    assert regular.status().sentence == "The last backup was made less than a minute ago."


def test_an_old_backup_needs_a_person(regular, clock):
    regular.run_if_due()
    clock.move(hours=49)
    assert regular.status().needs_a_person


def test_a_failed_backup_is_said_until_one_succeeds(regular, clock, place):
    regular.run_if_due()
    clock.move(hours=25)
    place.rename(place.with_name("taken away"))
    place.write_text("a file where the disk was")
    assert regular.run_if_due() is False
    status = regular.status()
    assert status.needs_a_person and "second disk" in status.sentence
    place.unlink()
    place.with_name("taken away").rename(place)
    assert regular.run_if_due() is True
    assert not regular.status().needs_a_person


def test_a_clock_that_jumps_back_is_noticed_and_a_backup_is_made(regular, clock):
    regular.run_if_due()
    clock.move(days=-400)
    assert "look at the clock" in regular.status().sentence and regular.status().needs_a_person
    assert regular.run_if_due() is True
    assert not regular.status().needs_a_person


def test_a_shop_without_jobs_has_nothing_to_back_up(shop, wired, place):
    assert RegularBackup(shop, wired.backups, BackupPlan(place, 24)).run_if_due() is False
    assert not place.exists()


def test_it_goes_on_in_a_thread_until_it_is_stopped(regular, place):
    regular.start()
    for _ in range(500):
        if place.exists() and read_held(place):
            break
        threading.Event().wait(0.01)
    regular.stop()
    assert read_held(place).entries == 1
    assert "regular backup" not in [thread.name for thread in threading.enumerate()]
