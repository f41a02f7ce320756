"""A second copy of a shop's records: made, its age and news told, and proven when it is put back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Protocol

from ..errors import BadInputError, NotFoundError
from ..said import said
from .audit import audit
from .ports import Shop
from .record import received_text


class Held(Protocol):
    """What a backup holds."""

    @property
    def made(self) -> str: ...
    @property
    def heads(self) -> Mapping[str, str]: ...
    @property
    def entries(self) -> int: ...
    @property
    def photos(self) -> int: ...


class Copied(Protocol):
    """A backup that was made, the one before it, and what was new."""

    @property
    def held(self) -> Held: ...
    @property
    def before(self) -> Held | None: ...
    @property
    def new_photos(self) -> int: ...
    @property
    def new_bytes(self) -> int: ...
    @property
    def damaged(self) -> Sequence[str]: ...


class Backups(Protocol):
    """Copies the shop's records and photos to another folder."""

    def copy_to(self, folder: Path, *, made: str) -> Copied:
        """Make or renew the backup in a folder."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What an audit of every job in a restored folder said."""

    jobs: int
    entries: int
    faults: tuple[str, ...]


def back_up(shop: Shop, backups: Backups, folder: Path) -> Copied:
    """Make or renew the backup in a folder, also while a server and other commands write.

    Raises:
        BadInputError: there is nothing to back up, or the folder holds other things.
        ConflictError: the backup there holds entries that are not here.
    """
    if not shop.journal.job_names():
        raise BadInputError("there is no job in these records; --data names the shop's folder")
    return backups.copy_to(folder, made=received_text(shop.clock()))


def copied_words(copied: Copied) -> list[str]:
    """Say what a backup holds, what was new in it, how old the one before was, and what is amiss."""
    held, before = copied.held, copied.before
    new = held.entries - (before.entries if before else 0)
    said = [
        f"{len(held.heads)} jobs, {held.entries} entries ({new} new) and {held.photos} photos "
        f"({copied.new_photos} new, {copied.new_bytes / 1e6:.1f} MB) are backed up as of {held.made}."
    ]
    if before:
        said.append(f"The backup before was made {age_words(before.made, held.made)} earlier.")
    said += [f"The photo {sha256} was damaged on disk and not copied." for sha256 in copied.damaged]
    return said


def age_words(earlier: str, later: str) -> str:
    """Say how long one moment was before another, in the largest unit that fits.

    >>> age_words("2026-03-09T08:00:00.000Z", "2026-03-11T09:00:00.000Z")
    '2 days'
    """
    minutes = int((_moment(later) - _moment(earlier)).total_seconds() // 60)
    for size, form in ((24 * 60, "{n} days"), (60, "{n} hours"), (1, "{n} minutes")):
        if minutes >= 2 * size:
            return said(form, n=minutes // size)
    return said("1 minute") if minutes == 1 else said("less than a minute")


def prove(shop: Shop, held: Held) -> Proof:
    """Audit every job of a restored folder and compare its head with the one that the backup names."""
    faults: list[str] = []
    entries = 0
    for job, head in held.heads.items():
        try:
            found = audit(shop, job)
        except NotFoundError as error:
            faults.append(f"{job}: {error}.")
            continue
        entries += found.entries
        if found.head != head:
            faults.append(f"{job}: its head is not the one that the backup names.")
        if not found.is_whole:
            faults += [f"{job}: {sentence}" for sentence in found.sentences()]
    return Proof(len(held.heads), entries, tuple(faults))


def _moment(text: str) -> datetime:
    return datetime.fromisoformat(text)
