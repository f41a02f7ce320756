"""A backup made every so many hours while the server runs; its age and its failures told in plain sight."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from threading import Event, Thread
from typing import Protocol

from ..errors import LastboltError
from ..said import said
from .backup import Copied, Held, age_words, back_up
from .ports import Shop
from .record import received_text

LOOK_EVERY_S = 30.0
"""How often the clock is looked at; a clock that jumps is thereby noticed soon."""


class Backups(Protocol):
    """Copies the shop's records and photos to another folder, and says what lies there."""

    def copy_to(self, folder: Path, *, made: str) -> Copied:
        """Make or renew the backup in a folder."""

    def held(self, folder: Path) -> Held | None:
        """Tell what the backup in a folder holds, None where there is none."""


@dataclass(frozen=True, slots=True)
class BackupPlan:
    """Where a backup goes, and every how many hours."""

    folder: Path
    hours: int


@dataclass(frozen=True, slots=True)
class BackupStatus:
    """When the last backup was made (RFC 3339, None: never), whether that needs a person, and it in words."""

    made: str | None
    needs_a_person: bool
    sentence: str


class RegularBackup:
    """Makes the backups of one shop while its server runs."""

    def __init__(self, shop: Shop, backups: Backups, plan: BackupPlan | None) -> None:
        self._shop = shop
        self._backups = backups
        self._plan = plan
        self._failed: str | None = None
        self._stop = Event()
        self._thread: Thread | None = None

    def status(self) -> BackupStatus:
        """Say how old the last backup is, and whether one failed since."""
        if self._plan is None:
            words = said("No backup is set up; set LASTBOLT_BACKUP to a folder on another disk.")
            return BackupStatus(None, True, words)
        try:
            held = self._backups.held(self._plan.folder)
        except LastboltError as error:
            return BackupStatus(None, True, said("The backup cannot be read: {error}.", error=error))
        made = held.made if held else None
        age = self._age_sentence(made)
        if self._failed:
            failed = said("The last try of a backup failed: {why}. {age}", why=self._failed, age=age)
            return BackupStatus(made, True, failed)
        return BackupStatus(made, self._is_late(made), age)

    def run_if_due(self) -> bool:
        """Make a backup if the last one is old enough; tell whether one was made, keep a failure in words."""
        if self._plan is None or not self._is_due(self._plan) or not self._shop.journal.job_names():
            return False
        try:
            copied = back_up(self._shop, self._backups, self._plan.folder)
        except LastboltError as error:
            self._failed = str(error)
            return False
        damaged = len(copied.damaged)
        form = "{n} photos are damaged on disk and were not copied"
        self._failed = said(form, n=damaged) if damaged else None
        return True

    def start(self) -> None:
        """Make backups from now on, in a thread of its own, until `stop`."""
        if self._plan is not None:
            self._thread = Thread(target=self._go_on, name="regular backup", daemon=True)
            self._thread.start()

    def stop(self) -> None:
        """Make no more backups; one that is being made is waited for."""
        self._stop.set()
        if self._thread:
            self._thread.join()

    def _go_on(self) -> None:
        while not self._stop.is_set():
            self.run_if_due()
            self._stop.wait(LOOK_EVERY_S)

    def _is_due(self, plan: BackupPlan) -> bool:
        try:
            held = self._backups.held(plan.folder)
        except LastboltError as error:
            self._failed = str(error)
            return False
        age = self._age(held.made) if held else None
        return age is None or age >= timedelta(hours=plan.hours) or age < timedelta(0)

    def _age(self, made: str) -> timedelta:
        return self._shop.clock() - datetime.fromisoformat(made)

    def _is_late(self, made: str | None) -> bool:
        assert self._plan is not None
        hours = timedelta(hours=2 * self._plan.hours)
        return made is None or not timedelta(minutes=-5) <= self._age(made) <= hours

    def _age_sentence(self, made: str | None) -> str:
        if made is None:
            return said("No backup was made yet.")
        if self._age(made) < timedelta(minutes=-5):
            form = "The last backup says that it was made at {made}, which lies ahead; look at the clock."
            return said(form, made=made)
        age = age_words(made, received_text(self._shop.clock()))
        return said("The last backup was made {age} ago.", age=age)
