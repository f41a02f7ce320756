"""The process that makes small pictures of pictures: a reader without what counts and learns.

Run as `python -m lastbolt.readers.shrinking MEMORY_BYTES SECONDS EDGE_PX`; frames as in `worker.py`.
"""

from __future__ import annotations

import sys

from ..said import to_json
from ..vision.outcome import Unusable
from ..vision.pixels import preview, read_photo
from .confined import READ, REFUSED, allow, answered, limit, take_stdout
from .frames import read_frame, write_frame


def main(memory_bytes: int, seconds: float, edge_px: int) -> None:
    """Shrink one picture after the other until nobody sends any more."""
    limit(memory_bytes)
    pictures, answers = sys.stdin.buffer, take_stdout()
    while (picture := read_frame(pictures)) is not None:
        allow(seconds)
        photo = read_photo(picture)
        if isinstance(photo, Unusable):
            frames = (REFUSED, to_json(photo.reason).encode(), b"")
        else:
            frames = (READ, b"", preview(photo.image, edge_px))
        answered()
        for frame in frames:
            write_frame(answers, frame)


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]))
