"""Give a finished file its name, so that it is there after a power cut, whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path


def settle(half: Path, path: Path) -> None:
    """Force a file to disk, give it its name, and force the folder to disk."""
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
