"""Small pictures for long lists of photos: made of the preview at first asking, and kept beside it."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from ..errors import StoreError
from ..vision.outcome import Unusable
from ..vision.shrink import shrink
from .ports import Photos

SMALL_EDGE_PX = 400
"""The longer edge: a tray's card as it is, a tile of a photo wall on a screen twice as fine."""
OUTSIDE = "pictures that stand in"
"""Whose turn it is while those are shrunk: they wait for each other alone."""


class Shrinker(Protocol):
    """Makes a small JPEG of a picture from outside, without being led astray by what it decodes."""

    def read(self, photo: bytes, *, device: str) -> bytes | Unusable:
        """Give the small picture, or why there is none."""


class Shown(NamedTuple):
    """A picture to show; `lasting` says that it will be the same at every asking."""

    jpeg: bytes
    lasting: bool


@dataclass(frozen=True, slots=True)
class SmallPictures:
    """Gives small pictures of photos: our own previews are shrunk here, a phone's stand-ins by `shrinker`."""

    photos: Photos
    shrinker: Shrinker

    def of(self, sha256: str) -> Shown | None:
        """Give a photo's small picture; its preview, where none can be made now; None where there is neither.

        Raises:
            StoreError: the disk refused.
        """
        kept = self.photos.small(sha256)
        if kept is not None:
            return Shown(kept, lasting=not self.photos.has_stand_in(sha256))
        own = self.photos.own_preview(sha256)
        larger = own if own is not None else self.photos.preview(sha256)
        if larger is None:
            return None
        small = shrink(own, SMALL_EDGE_PX) if own is not None else self._from_outside(larger)
        if small is None:
            return Shown(larger, lasting=False)
        with suppress(StoreError):  # a full disk keeps nobody from looking at photos
            self.photos.put_small(sha256, small, of_stand_in=own is None)
        return Shown(small, lasting=own is not None)

    def _from_outside(self, larger: bytes) -> bytes | None:
        try:
            small = self.shrinker.read(larger, device=OUTSIDE)
        except StoreError:  # too many wait, or no process can be started
            return None
        return small if isinstance(small, bytes) else None
