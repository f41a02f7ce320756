"""A disk that can be made full: a tmpfs where it may be mounted, else a limit on how large files may grow."""

from __future__ import annotations

import os
import resource
import subprocess
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

DISK_BYTES = 48 * 2**20
LeaveFree = Callable[[int | None], None]
"""Leave so many bytes free, None for all that there is."""


@contextmanager
def small_disk(folder: Path) -> Iterator[tuple[str, LeaveFree]]:
    """Give the name of what stands in for a disk, and what makes it full; `folder` lies on it."""
    folder.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", f"size={DISK_BYTES}", "lastbolt-test", str(folder)]
    try:
        is_mounted = subprocess.run(command, capture_output=True, check=False).returncode == 0
    except FileNotFoundError:
        is_mounted = False
    if is_mounted:
        try:
            yield "a tmpfs", lambda free: _fill(folder / "ballast", free)
        finally:
            subprocess.run(["umount", "--lazy", str(folder)], check=True)
        return
    _, most = resource.getrlimit(resource.RLIMIT_FSIZE)
    try:
        yield "a limit on file sizes", lambda free: _limit(free, most)
    finally:
        _limit(None, most)


def _fill(ballast: Path, free: int | None) -> None:
    ballast.unlink(missing_ok=True)
    if free is None:
        return
    place = os.statvfs(ballast.parent)
    room = place.f_bavail * place.f_frsize - free
    ballast.touch()
    if room > 0:
        with ballast.open("wb") as file:
            os.posix_fallocate(file.fileno(), 0, room)


def _limit(free: int | None, most: int) -> None:
    soft = most if free is None else free
    resource.setrlimit(resource.RLIMIT_FSIZE, (soft, most))
