"""A file stands there whole or not at all: it gets its name when what it holds is on disk."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

HALF = ".arriving-"
"""How the name of a file begins that is not whole yet; what a crash left so may be swept."""
OWNER_ONLY, ANYBODY_READS, NEVER_CHANGED = 0o600, 0o644, 0o444


@contextmanager
def whole_file(
    path: Path, mode: int = OWNER_ONLY, *, is_forced: bool = True, stays: bool = False
) -> Iterator[BinaryIO]:
    """Give a file to write beside its place; at its end it goes to disk and gets its name, and so does that.

    What is raised on the way leaves what stood there. With `stays` a file that stands there already is kept
    and the new one thrown away; without `is_forced` a power cut may take the file back.
    """
    handle, name = tempfile.mkstemp(prefix=HALF, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
            file.flush()
            os.fchmod(file.fileno(), mode)
            if is_forced:
                os.fsync(file.fileno())
        if stays:
            with suppress(FileExistsError):
                os.link(name, path)
        else:
            os.replace(name, path)
    finally:
        Path(name).unlink(missing_ok=True)
    if is_forced:
        sync_folder(path.parent)


def settle(half: Path, path: Path) -> None:
    """Force a finished file to disk, give it its name, and force the folder to disk."""
    with half.open("rb") as file:
        os.fsync(file.fileno())
    os.replace(half, path)
    sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Force a folder to disk, and with it the names of its files."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
