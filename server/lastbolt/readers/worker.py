"""The process that decodes pictures from outside: little memory, little time, no files to write.

Run as `python -m lastbolt.readers.worker MEMORY_BYTES SECONDS PREVIEW_EDGE_PX`; frames come in at stdin and
go out at stdout. It ends when its stdin does.
"""

from __future__ import annotations

import sys

from .. import label_code
from ..said import to_json
from ..vision.outcome import Unusable
from ..vision.reading import look_to_json, read_whole
from .confined import READ, REFUSED, allow, answered, limit, take_stdout
from .frames import apart, read_frame, write_frame


def main(memory_bytes: int, seconds: float, preview_edge_px: int) -> None:
    """Read one picture after the other until nobody sends any more."""
    limit(memory_bytes)
    pictures, answers = sys.stdin.buffer, take_stdout()
    read_whole(_first_picture(), label_code.code_in, preview_edge_px=preview_edge_px)
    while (frame := read_frame(pictures)) is not None:
        allow(seconds)
        photo, earlier = apart(frame)
        try:
            reading = read_whole(photo, label_code.code_in, preview_edge_px=preview_edge_px, earlier=earlier)
        except MemoryError:
            reading = Unusable("The picture needs more memory than a photo may have; send a smaller one.")
        answered()
        if isinstance(reading, Unusable):
            frames = (REFUSED, to_json(reading.reason).encode(), b"")
        else:
            frames = (READ, look_to_json(reading.seen), reading.preview)
        for each in frames:
            write_frame(answers, each)


def _first_picture() -> bytes:
    """Give a picture to warm up with: decoders and weights are loaded before the first photo comes."""
    row = b"\x80" * (4 * 160)
    size = 54 + len(row) * 200
    head = b"BM" + size.to_bytes(4, "little") + bytes(4) + (54).to_bytes(4, "little")
    info = b"".join(n.to_bytes(4, "little") for n in (40, 160, 200)) + b"\x01\x00\x20\x00" + bytes(24)
    return head + info + row * 200


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]))
