"""A shop's records and photos in a second folder: copied while others write, and put into an empty one."""

from __future__ import annotations

import fcntl
import hashlib
import json
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import BadInputError, ConflictError, LastboltError, StoreError
from ..whole_file import HALF, settle, whole_file
from . import database
from .backup_keys import FOLDER, copy_keys, restore_keys
from .photo_files import PhotoFiles

FORMAT, VERSION = "lastbolt backup", 1
SAID = "backup.json"
_LOCK = "backup.lock"
_HEADS = """SELECT job, hash FROM entries AS line
  WHERE position = (SELECT max(position) FROM entries WHERE job = line.job) ORDER BY job"""


@dataclass(frozen=True, slots=True)
class Held:
    """What a backup holds; `made` is RFC 3339 in UTC, `heads` each job's newest hash by its name."""

    made: str
    records: str
    records_sha256: str
    heads: Mapping[str, str]
    entries: int
    photos: int


@dataclass(frozen=True, slots=True)
class Copied:
    """A backup that was made, the one before it in that folder, and what was new or could not be copied."""

    held: Held
    before: Held | None
    new_photos: int
    new_bytes: int
    damaged: tuple[str, ...]


class BackupFiles:
    """Copies one shop's database and photos; what is in a backup folder already is not copied again."""

    def __init__(self, records: database.Database, photos: Path) -> None:
        self._records = records
        self._photos = photos

    def copy_to(self, folder: Path, *, made: str) -> Copied:
        """Make or renew the backup in a folder; the one before stays whole until this one is.

        The records are those of one moment; photos are there before the entries that name them. A photo that
        is in the backup with its full size is not looked at again; `restore` hashes all of them.

        Raises:
            BadInputError: the folder holds something else, or lies in the shop's own folder.
            ConflictError: the backup there holds entries that are not here.
            StoreError: a disk refused, or the copy came out damaged.
        """
        if folder.resolve().is_relative_to(self._photos.parent.resolve()):
            raise BadInputError(f"{folder} lies in the shop's own folder; put the backup on another disk")
        with _alone_in(folder):
            before = _held_before(folder)
            half = _half_file(folder)
            try:
                heads, entries = self._copy_records(half, before, folder)
                digest = _sha256_of(half)
                name = f"records-{digest[:16]}.sqlite"
                settle(half, folder / name)
            finally:
                half.unlink(missing_ok=True)
            new, new_bytes, damaged = self._copy_photos(folder / "photos")
            copy_keys(self._photos.parent, folder)
            photos = sum(1 for _ in _photo_paths(folder / "photos"))
            held = Held(made, name, digest, heads, entries, photos)
            _write_said(folder, held)
            for old in folder.glob("records-*.sqlite"):
                if old.name != name:
                    old.unlink()
        return Copied(held, before, new, new_bytes, tuple(damaged))

    def held(self, folder: Path) -> Held | None:
        """Tell what the backup in a folder holds, None where there is none.

        Raises:
            BadInputError: it says nothing sound.
        """
        return read_held(folder)

    def _copy_records(self, half: Path, before: Held | None, folder: Path) -> tuple[dict[str, str], int]:
        with self._records.reading() as tables, closing(sqlite3.connect(half)) as copy:
            tables.conn.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
            if copy.execute("PRAGMA quick_check").fetchone() != ("ok",):
                raise StoreError(f"the copy in {folder} came out damaged; look at the disk, then do it again")
            for job, head in (before.heads if before else {}).items():
                here = "SELECT 1 FROM entries WHERE job = ? AND hash = ?"
                if not copy.execute(here, [job, head]).fetchone():
                    raise ConflictError(
                        f"the backup in {folder} holds entries of the job {job!r} that are not in these "
                        "records; keep that backup and give another folder"
                    )
            heads = dict(copy.execute(_HEADS).fetchall())
            return heads, int(copy.execute("SELECT count(*) FROM entries").fetchone()[0])

    def _copy_photos(self, folder: Path) -> tuple[int, int, list[str]]:
        source, target = PhotoFiles(self._photos), PhotoFiles(folder)
        new, new_bytes, damaged = 0, 0, []
        for path in _photo_paths(self._photos):
            there = folder / path.relative_to(self._photos)
            size = path.stat().st_size
            if there.exists() and there.stat().st_size == size:
                continue
            if source.state(path.name) != "here":
                damaged.append(path.name)
                continue
            target.put(path.read_bytes())
            new, new_bytes = new + 1, new_bytes + size
        return new, new_bytes, damaged


def restore_files(folder: Path, into: Path) -> Held:
    """Put a backup into an empty folder, every hash looked at; photos that the disk damaged stay behind.

    Raises:
        BadInputError: there is no sound backup, or the folder to put it into is not empty.
        StoreError: the disk refused; the folder is empty again.
    """
    held = read_held(folder)
    if held is None:
        raise BadInputError(f"there is no backup in {folder}; name the folder that lastbolt backup wrote to")
    if into.exists() and (not into.is_dir() or any(into.iterdir())):
        raise BadInputError(f"{into} is not empty; a backup goes into an empty or a new folder only")
    records = folder / held.records
    if not records.is_file() or _sha256_of(records) != held.records_sha256:
        raise BadInputError(f"the records in {folder} are missing or damaged; take an older backup")
    try:
        photos = PhotoFiles(into / "photos")
        into.mkdir(parents=True, exist_ok=True)
        for path in _photo_paths(folder / "photos"):
            if PhotoFiles(folder / "photos").state(path.name) == "here":
                photos.put(path.read_bytes())
        restore_keys(folder, into)
        half = _half_file(into)
        shutil.copyfile(records, half)
        settle(half, into / database.FILE_NAME)
    except (LastboltError, OSError) as error:
        _empty(into)
        said = getattr(error, "strerror", None) or str(error)
        raise StoreError(f"{into} could not be filled: {said}; it was emptied again") from error
    return held


def read_held(folder: Path) -> Held | None:
    """Read what a folder's backup says of itself; None where there is none.

    Raises:
        BadInputError: it says nothing sound.
    """
    try:
        said = json.loads((folder / SAID).read_text(encoding="utf-8"))
        if (said["format"], said["format_version"]) != (FORMAT, VERSION):
            raise ValueError("another format")
        name = str(said["records"]["file"])
        if Path(name).name != name:
            raise ValueError("its records lie elsewhere")
        heads, counts = dict(said["heads"]), said["counts"]
        digest = str(said["records"]["sha256"])
        return Held(said["made"], name, digest, heads, int(counts["entries"]), int(counts["photos"]))
    except FileNotFoundError:
        return None
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise BadInputError(
            f"{folder / SAID} says nothing that can be read ({error}); take another backup"
        ) from error


def _held_before(folder: Path) -> Held | None:
    before = read_held(folder)
    others = [path.name for path in folder.iterdir() if not _is_ours(path.name)]
    if before is None and others:
        raise BadInputError(
            f"{folder} holds other things ({sorted(others)[0]}); give an empty or a new folder"
        )
    return before


def _is_ours(name: str) -> bool:
    return name in (SAID, _LOCK, "photos", FOLDER) or name.startswith((HALF, "records-"))


def _write_said(folder: Path, held: Held) -> None:
    said: dict[str, Any] = {
        "format": FORMAT,
        "format_version": VERSION,
        "made": held.made,
        "records": {"file": held.records, "sha256": held.records_sha256},
        "heads": dict(held.heads),
        "counts": {"jobs": len(held.heads), "entries": held.entries, "photos": held.photos},
    }
    with whole_file(folder / SAID) as file:
        file.write((json.dumps(said, indent=2, ensure_ascii=False) + "\n").encode())


@contextmanager
def _alone_in(folder: Path) -> Iterator[None]:
    """Hold a backup folder, made where there is none, against a second backup at the same time."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        lock = (folder / _LOCK).open("a")
    except OSError as error:
        raise BadInputError(f"{folder} cannot be written to: {error.strerror}; give another") from error
    with lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            raise StoreError(f"another backup is being written to {folder}; wait until it is done") from error
        for left in folder.glob(f"{HALF}*"):
            left.unlink()
        yield


def _photo_paths(folder: Path) -> Iterator[Path]:
    return (path for path in sorted(folder.glob("??/??/*")) if len(path.name) == 64 and path.is_file())


def _half_file(folder: Path) -> Path:
    handle, name = tempfile.mkstemp(prefix=HALF, dir=folder)
    os.close(handle)
    return Path(name)


def _sha256_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _empty(folder: Path) -> None:
    with suppress(OSError):
        for path in folder.iterdir():
            shutil.rmtree(path) if path.is_dir() else path.unlink()
