"""One zip for a job: written whole or not at all, and read with every name and size bounded."""

from __future__ import annotations

import hashlib
import re
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from ..errors import BadInputError, ConflictError
from ..said import said
from ..whole_file import ANYBODY_READS, whole_file

MANIFEST, JOURNAL = "manifest.json", "journal.jsonl"
SCRIPTS = (
    "check_bundle.py",
    "check_canonical.py",
    "check_release.py",
    "check_signature.py",
    "check_verdict.py",
)
_TEXTS = frozenset(
    {MANIFEST, JOURNAL, "verdict.json", "verdict.txt", "checks.md", "checks.zip", "record.txt", "record.pdf"}
) | frozenset(SCRIPTS)
_RELEASE = re.compile(r"releases/[0-9]{1,9}(?:\.json|-[a-z0-9-]{1,40}\.pdf)")
_PHOTO = re.compile(r"photos/[0-9a-f]{64}\.[a-z]{3,4}")
_LONG_AGO = (1980, 1, 1, 0, 0, 0)
MOST_FILES = 20_000
LARGEST_TEXT = 64 * 2**20
_RATIO, _RATIO_FROM = 250, 2**20


class NewArchive:
    """A zip being written; `members` says the size and SHA-256 of each file so far."""

    def __init__(self, zipped: zipfile.ZipFile) -> None:
        self._zipped = zipped
        self.members: dict[str, dict[str, Any]] = {}

    def add(self, name: str, data: bytes) -> None:
        """Add a file; photos are not packed, for they would not get smaller."""
        info = zipfile.ZipInfo(name, _LONG_AGO)
        info.compress_type = zipfile.ZIP_STORED if name.startswith("photos/") else zipfile.ZIP_DEFLATED
        info.external_attr = 0o644 << 16
        self._zipped.writestr(info, data)
        self.members[name] = {"size": len(data), "sha256": hashlib.sha256(data).hexdigest()}


@contextmanager
def new_archive(path: Path) -> Iterator[NewArchive]:
    """Write a zip beside its place and move it there when it is whole and on disk.

    Raises:
        ConflictError: something stands there already.
        BadInputError: its folder is not there.
    """
    if path.exists():
        raise ConflictError(
            said("{path} is here already; give another name, or move that file away", path=path)
        )
    if not path.parent.is_dir():
        raise BadInputError(
            said("there is no folder {parent}; make it, or give another place", parent=path.parent)
        )
    with whole_file(path, ANYBODY_READS) as file, zipfile.ZipFile(file, "w") as zipped:
        yield NewArchive(zipped)


class Archive:
    """A zip being read: no name is ever used as a path, and no file gives more than its bound."""

    def __init__(self, zipped: zipfile.ZipFile, largest_photo: int) -> None:
        self._zipped = zipped
        found = zipped.infolist()
        self.names = [info.filename for info in found]
        if len(found) > MOST_FILES:
            raise BadInputError(
                said("the zip holds {n} files; a job has {most} at most", n=len(found), most=MOST_FILES)
            )
        for info in found:
            _refuse_odd(info, largest_photo)
        if len(set(self.names)) != len(self.names):
            raise BadInputError("the zip holds two files of one name; ask for the file anew")

    def read(self, name: str) -> bytes:
        """Give a file's bytes, never more than the zip said it has.

        Raises:
            BadInputError: it is cut short or damaged.
        """
        try:
            return self._zipped.read(name)
        except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError) as error:
            raise BadInputError(
                said("{name} in the zip is damaged: {error}; ask for the file anew", name=name, error=error)
            ) from error


@contextmanager
def open_archive(path: Path, *, largest_photo: int) -> Iterator[Archive]:
    """Open a zip for reading.

    Raises:
        BadInputError: it is no zip, is cut short, or holds what has no place in a job's zip.
    """
    try:
        zipped = zipfile.ZipFile(path)
    except (zipfile.BadZipFile, NotImplementedError, ValueError, EOFError) as error:
        raise BadInputError(
            said(
                "{path} is no whole zip; it is cut short, damaged or of another kind: ask for it anew",
                path=path,
            )
        ) from error
    except OSError as error:
        raise BadInputError(
            said(
                "{path} cannot be read: {reason}; give another file",
                path=path,
                reason=error.strerror or error,
            )
        ) from error
    with zipped:
        yield Archive(zipped, largest_photo)


def _refuse_odd(info: zipfile.ZipInfo, largest_photo: int) -> None:
    name = repr(info.filename[:80])
    is_photo = bool(_PHOTO.fullmatch(info.filename))
    if not is_photo and info.filename not in _TEXTS and not _RELEASE.fullmatch(info.filename):
        raise BadInputError(
            said("the zip holds {name}, which has no place in an exported job; nothing was taken", name=name)
        )
    most = largest_photo if is_photo else LARGEST_TEXT
    if info.file_size > most:
        raise BadInputError(
            said(
                "{name} in the zip is larger than {most} MB; nothing was taken", name=name, most=most // 2**20
            )
        )
    if info.file_size > _RATIO_FROM and info.file_size > _RATIO * max(info.compress_size, 1):
        raise BadInputError(
            said("{name} in the zip is packed too tightly to be genuine; nothing was taken", name=name)
        )
    if info.flag_bits & 1 or info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise BadInputError(
            said("{name} in the zip is locked or packed in a way not known here; pack it plainly", name=name)
        )
