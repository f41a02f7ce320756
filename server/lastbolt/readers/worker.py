"""The process that decodes pictures from outside: little memory, little time, no files to write.

Run as `python -m lastbolt.readers.worker MEMORY_BYTES SECONDS PREVIEW_EDGE_PX`; frames come in at stdin and
go out at stdout. It ends when its stdin does.
"""

from __future__ import annotations

import math
import os
import resource
import signal
import sys
from typing import IO

from .. import label_code
from ..vision.outcome import Unusable
from ..vision.reading import look_to_json, read_whole
from .frames import read_frame, write_frame

REFUSED, READ = b"refused", b"read"
NICENESS = 5
"""A reader steps back behind the server, so that pages are answered while photos are read."""
SLOWEST = 10
"""Seconds of the clock for each second of the processor that a photo may take: other programs want it too."""


def main(memory_bytes: int, seconds: float, preview_edge_px: int) -> None:
    """Read one picture after the other until nobody sends any more."""
    _limit(memory_bytes)
    pictures, answers = sys.stdin.buffer, _take_stdout()
    read_whole(_first_picture(), label_code.code_in, preview_edge_px=preview_edge_px)
    while (photo := read_frame(pictures)) is not None:
        _allow(seconds)
        try:
            reading = read_whole(photo, label_code.code_in, preview_edge_px=preview_edge_px)
        except MemoryError:
            reading = Unusable("The picture needs more memory than a photo may have; send a smaller one.")
        signal.alarm(0)
        if isinstance(reading, Unusable):
            frames = (REFUSED, reading.reason.encode(), b"")
        else:
            frames = (READ, look_to_json(reading.seen), reading.preview)
        for frame in frames:
            write_frame(answers, frame)


def _limit(memory_bytes: int) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (memory_bytes, memory_bytes))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    os.nice(NICENESS)
    os.chdir("/")
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C at the server's terminal is the server's to answer


def _allow(seconds: float) -> None:
    """Let the system end this process when a photo takes too much of the processor, or ten times that long.

    Both end it also inside a decoder, and also when the server is gone.
    """
    used = resource.getrusage(resource.RUSAGE_SELF)
    limit = math.ceil(used.ru_utime + used.ru_stime + seconds)
    resource.setrlimit(resource.RLIMIT_CPU, (limit, resource.getrlimit(resource.RLIMIT_CPU)[1]))
    signal.alarm(math.ceil(seconds * SLOWEST))


def _take_stdout() -> IO[bytes]:
    """Keep stdout for the answers: whatever a decoder prints goes to stderr."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return answers


def _first_picture() -> bytes:
    """Give a picture to warm up with: decoders and weights are loaded before the first photo comes."""
    row = b"\x80" * (4 * 160)
    size = 54 + len(row) * 200
    head = b"BM" + size.to_bytes(4, "little") + bytes(4) + (54).to_bytes(4, "little")
    info = b"".join(n.to_bytes(4, "little") for n in (40, 160, 200)) + b"\x01\x00\x20\x00" + bytes(24)
    return head + info + row * 200


if __name__ == "__main__":
    main(int(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]))
