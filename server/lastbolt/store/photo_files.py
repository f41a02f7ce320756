"""Original photos by their SHA-256: written once, byte for byte, looked at again on every read."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Literal

from ..errors import NotFoundError, StoreError
from ..said import said
from ..whole_file import HALF, NEVER_CHANGED, sync_folder, whole_file
from .photo_name import photo_name
from .refusal import refusal

PhotoState = Literal["here", "missing", "damaged"]
_END_OF_JPEG = b"\xff\xd9"


class PhotoFiles:
    """A folder of photos, `ab/cd/<sha-256>`, with a small preview beside each."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def put(self, photo: bytes) -> str:
        """Keep a photo and give its SHA-256; it is on disk afterwards. One that is here stays untouched.

        A file that the disk has damaged is moved aside, never overwritten.

        Raises:
            StoreError: the disk refused; nothing is half there.
        """
        sha256 = hashlib.sha256(photo).hexdigest()
        state = self.state(sha256)
        if state == "damaged":
            _set_aside(self._path(sha256))
        if state != "here":
            _write(self._path(sha256), photo)
        return sha256

    def original(self, sha256: str) -> bytes:
        """Give a photo's bytes, which have the hash that they are named by.

        Raises:
            NotFoundError: its bytes are not here.
            StoreError: the disk gives other bytes than were kept.
        """
        photo = _read(self._path(sha256))
        if photo is None:
            raise NotFoundError(
                said(
                    "the photo {photo} is not here; take it in from the phone or the card", photo=sha256[:12]
                )
            )
        if hashlib.sha256(photo).hexdigest() != sha256:
            raise StoreError(
                said(
                    "the photo {photo} was damaged on disk; take it in again or use a backup",
                    photo=sha256[:12],
                )
            )
        return photo

    def state(self, sha256: str) -> PhotoState:
        """Tell whether a photo is here, unharmed."""
        path = self._path(sha256)
        try:
            with path.open("rb") as file:
                digest = hashlib.file_digest(file, "sha256").hexdigest()
        except FileNotFoundError:
            return "missing"
        except OSError as error:
            raise _refused(path, error) from error
        return "here" if digest == sha256 else "damaged"

    def has(self, sha256: str) -> bool:
        """Tell whether a photo's file is here; unlike `state` it does not look at its bytes."""
        return self._path(sha256).is_file()

    def put_preview(self, sha256: str, jpeg: bytes) -> None:
        """Keep a photo's preview, made from its original; the first one stays."""
        path = self._preview(sha256)
        if not path.exists():
            _write(path, jpeg)
        self._small(sha256, of_stand_in=True).unlink(missing_ok=True)
        self._stand_in(sha256).unlink(missing_ok=True)

    def put_stand_in(self, sha256: str, jpeg: bytes) -> None:
        """Keep a small picture that stands in for an original that has not come; the newest one stays."""
        _write(self._stand_in(sha256), jpeg)
        self._small(sha256, of_stand_in=True).unlink(missing_ok=True)

    def preview(self, sha256: str) -> bytes | None:
        """Give a photo's preview or what stands in for it, or None; it can always be made again."""
        found = self.own_preview(sha256)
        return _read(self._stand_in(sha256)) if found is None else found

    def own_preview(self, sha256: str) -> bytes | None:
        """Give the preview that was made here from the original, or None."""
        return _read(self._preview(sha256))

    def put_small(self, sha256: str, jpeg: bytes, *, of_stand_in: bool) -> None:
        """Keep the small picture of a preview or of what stands in for it; the disk is not waited for."""
        _write(self._small(sha256, of_stand_in=of_stand_in), jpeg, forced=False)

    def small(self, sha256: str) -> bytes | None:
        """Give the small picture of what `preview` gives; None where there is none, or half of one."""
        found = _read(self._small(sha256, of_stand_in=not self._preview(sha256).is_file()))
        return found if found and found.endswith(_END_OF_JPEG) else None

    def has_stand_in(self, sha256: str) -> bool:
        """Tell whether only a small picture came, and not yet the original that it stands for."""
        return self._stand_in(sha256).is_file()

    def sweep(self) -> int:
        """Remove what a power cut left half written, and tell how many; only while nobody else writes."""
        left = list(self._folder.glob(f"??/??/{HALF}*"))
        for path in left:
            path.unlink(missing_ok=True)
        return len(left)

    def _path(self, sha256: str) -> Path:
        photo_name(sha256)
        return self._folder / sha256[:2] / sha256[2:4] / sha256

    def _preview(self, sha256: str) -> Path:
        return self._path(sha256).with_name(f"{sha256}.preview.jpg")

    def _small(self, sha256: str, *, of_stand_in: bool) -> Path:
        of = ".stand-in" if of_stand_in else ""
        return self._path(sha256).with_name(f"{sha256}{of}.small.jpg")

    def _stand_in(self, sha256: str) -> Path:
        return self._path(sha256).with_name(f"{sha256}.stand-in.jpg")


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise _refused(path, error) from error


def _write(path: Path, content: bytes, *, forced: bool = True) -> None:
    """Write a photo whole, its folder made where there is none; forced to disk unless told not to."""
    try:
        _make_folder(path.parent)
        with whole_file(path, NEVER_CHANGED, is_forced=forced) as file:
            file.write(content)
    except OSError as error:
        raise _refused(path, error) from error


def _make_folder(folder: Path) -> None:
    if folder.is_dir():
        return
    _make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    sync_folder(folder.parent)


def _set_aside(path: Path) -> None:
    number = 1
    while (aside := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    path.rename(aside)


def _refused(path: Path, error: OSError) -> StoreError:
    way_out = said("see that {folder} may be written to, then send the photo again", folder=path.parent)
    return refusal("the photo folder", error, way_out)
