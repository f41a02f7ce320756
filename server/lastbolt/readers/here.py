"""The reader of a command: the person's own photos, decoded in the command's own process."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from .. import label_code
from ..vision.outcome import Reading, Unusable
from ..vision.reading import read_whole
from .turns import ReadingQueue


class ReaderHere:
    """Reads photos in this process, at once."""

    def __init__(self, preview_edge_px: int) -> None:
        self._preview_edge_px = preview_edge_px

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading | Unusable:
        """Read a photo, whoever sent it; one that shows nothing is held against an `earlier` one."""
        edge = self._preview_edge_px
        return read_whole(photo, label_code.code_in, preview_edge_px=edge, earlier=earlier)

    def glance(self, photo: bytes, *, device: str) -> Reading | Unusable:
        """Read a picture that somebody waits for: here nobody waits longer than for any other."""
        return self.read(photo, device=device)

    @contextmanager
    def turn(self, *, device: str) -> Iterator[ReaderHere]:
        """It is always everybody's turn."""
        yield self

    def queue(self) -> ReadingQueue:
        """Tell that nothing waits."""
        return ReadingQueue((), (), 0.0, 1)
