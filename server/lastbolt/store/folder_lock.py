"""One server at a time on one folder of data."""

from __future__ import annotations

import fcntl
from pathlib import Path

from ..errors import StoreError

FILE_NAME = "server.lock"


class FolderLock:
    """Held for as long as a server runs; the system lets it go when the process ends, however it ends."""

    def __init__(self, folder: Path) -> None:
        """Take the lock of a folder.

        Raises:
            StoreError: another server works on this folder.
        """
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._file = (folder / FILE_NAME).open("a")
        except OSError as error:
            raise StoreError(
                f"the data folder {folder} cannot be used: {error.strerror}; give another"
            ) from error
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            self._file.close()
            raise StoreError(
                f"another Lastbolt server works on {folder} already; stop that one, or give another folder"
            ) from error

    def release(self) -> None:
        """Let the folder go."""
        self._file.close()
