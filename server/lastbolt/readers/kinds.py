"""The two kinds of processes: one that says what a photo shows, one that makes a small picture of it."""

from __future__ import annotations

from ..vision.outcome import Reading
from ..vision.reading import look_from_json
from .process import PictureProcess


class ReaderProcess(PictureProcess[Reading]):
    """Reads photos: what each shows, and its preview."""

    module = "lastbolt.readers.worker"

    def meant(self, said: bytes, picture: bytes) -> Reading:
        """Take what was read, and the preview."""
        return Reading(look_from_json(said), picture)


class ShrinkingProcess(PictureProcess[bytes]):
    """Makes small pictures, as JPEG."""

    module = "lastbolt.readers.shrinking"

    def meant(self, said: bytes, picture: bytes) -> bytes:
        """Take the small picture."""
        if not picture:
            raise ValueError("an answer without its picture")
        return picture
