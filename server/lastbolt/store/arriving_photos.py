"""Photos on their way in: each grows part by part in a file of its own, until all of it is here."""

from __future__ import annotations

import os
import threading
from contextlib import suppress
from pathlib import Path

from ..errors import BadInputError, NotFoundError, StoreError
from ..said import said
from .photo_name import photo_name
from .refusal import refusal

PART_BYTES = 256 * 1024
"""Every part but the last has this many bytes; part n begins at n times as many."""


class ArrivingPhotos:
    """A folder of unfinished photos, named by the SHA-256 that they are to have; none is acknowledged.

    Nothing is forced to disk here: what a power cut spoils shows when the whole is hashed, and comes again.
    """

    part_bytes = PART_BYTES

    def __init__(self, folder: Path, largest: int) -> None:
        self._folder = folder
        self._largest = largest
        self._one_at_a_time = threading.Lock()

    def parts(self, sha256: str) -> int:
        """Count the whole parts that are here, from the first one on."""
        try:
            return self._path(sha256).stat().st_size // PART_BYTES
        except FileNotFoundError:
            return 0

    def put(self, sha256: str, number: int, part: bytes) -> int:
        """Put part `number` (from 0) in its place and count the whole parts; one too early is not kept.

        A part may come twice.

        Raises:
            BadInputError: the part is empty or too large, or the photo would be larger than the limit.
            StoreError: the disk refused; the parts before it are still here.
        """
        if not 0 < len(part) <= PART_BYTES:
            raise BadInputError(
                said(
                    "a part has 1 to {most} bytes, this one has {n}; send it again",
                    most=PART_BYTES,
                    n=len(part),
                )
            )
        if number * PART_BYTES + len(part) > self._largest:
            limit = self._largest // 2**20
            raise BadInputError(
                said("the photo has more than {limit} MiB; send the camera's own photo", limit=limit)
            )
        path = self._path(sha256)
        try:
            with self._one_at_a_time:
                if number <= self.parts(sha256):
                    self._folder.mkdir(parents=True, exist_ok=True)
                    _write_at(path, number * PART_BYTES, part)
                return self.parts(sha256)
        except OSError as error:
            raise _refused(self._folder, error) from error

    def whole(self, sha256: str) -> bytes:
        """Give all bytes that are here.

        Raises:
            NotFoundError: no part of it is here.
            StoreError: the disk refused.
        """
        try:
            return self._path(sha256).read_bytes()
        except FileNotFoundError:
            raise NotFoundError(
                said("no part of the photo {photo} is here; send it from its start", photo=sha256[:12])
            ) from None
        except OSError as error:
            raise _refused(self._folder, error) from error

    def drop(self, sha256: str) -> None:
        """Let the parts go."""
        self._path(sha256).unlink(missing_ok=True)

    def sweep(self, before: float) -> int:
        """Remove photos that nothing was added to since a moment (seconds of the epoch); tell how many."""
        swept = 0
        for path in self._folder.glob("*"):
            with suppress(FileNotFoundError):  # it was taken in just now
                if path.stat().st_mtime < before:
                    path.unlink()
                    swept += 1
        return swept

    def _path(self, sha256: str) -> Path:
        return self._folder / photo_name(sha256)


def _write_at(path: Path, place: int, part: bytes) -> None:
    """Write a part in its place; what lies behind it stays, for a part that comes twice changes nothing."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    with os.fdopen(handle, "r+b") as file:
        file.seek(place)
        file.write(part)


def _refused(folder: Path, error: OSError) -> StoreError:
    way_out = said(
        "see that {folder} may be written to; the phone keeps the photo and sends it again", folder=folder
    )
    return refusal("the folder for arriving photos", error, way_out)
