"""Stand-ins for what a hostile picture does to the process that decodes it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from lastbolt.readers.process import Bounds, ReaderProcess

ROOT = Path(__file__).resolve().parents[2]
BOUNDS = Bounds(memory_bytes=2 * 2**30, seconds=20, preview_edge_px=300)


class Spoilt(ReaderProcess):
    """The true reader process, with a decoder that a picture of these words leads astray."""

    def __init__(self, bounds: Bounds) -> None:
        super().__init__(bounds)
        self._process.kill()
        self._process.communicate()
        command = [
            sys.executable,
            "-m",
            "tests.readers.hostile",
            str(bounds.memory_bytes),
            str(bounds.seconds),
        ]
        self._process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT)


def astray(photo: bytes, true_reader):
    """Do what the picture says, else read it."""
    if photo.startswith(b"hang"):
        while True:
            pass
    if photo.startswith(b"crash"):
        os.abort()
    if photo.startswith(b"grow"):
        held = []
        while True:
            held.append(bytearray(64 * 2**20))
    if photo.startswith(b"lie"):
        os.write(3, b"\0" * 8)
    if photo.startswith(b"write"):
        Path(photo[5:].decode()).write_bytes(b"x")
    return true_reader(photo)


def main() -> None:
    from lastbolt.readers import worker

    true = worker.read_whole

    def read_whole(photo, read_code, **how):
        return astray(photo, lambda p: true(p, read_code, **how))

    worker.read_whole = read_whole
    worker.main(int(sys.argv[1]), float(sys.argv[2]), 300)


if __name__ == "__main__":
    main()
