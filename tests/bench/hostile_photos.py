"""Photos spoilt by chance, one after the other, to a reader process that may take one gigabyte.

python -m tests.bench.hostile_photos [--seconds 600] [--seed 1]

It prints how many were read, refused, and ended their process; status 1 when one did.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from pathlib import Path

import psutil

from lastbolt.readers.frames import together
from lastbolt.readers.process import Bounds, Gone, ReaderProcess
from lastbolt.vision.outcome import Unusable

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = (ROOT / "samples" / "photos", ROOT / "tests" / "vision" / "photos")
BOUNDS = Bounds(memory_bytes=2 * 2**30, seconds=30, preview_edge_px=1280)
MOST_BYTES = 10**9


def spoilt(data: bytes, chance: random.Random) -> bytes:
    """Flip, cut, repeat, or overwrite some of a file; its head more often than the rest."""
    out = bytearray(data)
    for _ in range(chance.choice((1, 3, 30, 400))):
        end = min(len(out), 2000) if chance.random() < 0.5 else len(out)
        at = chance.randrange(max(1, end))
        act = chance.randrange(5)
        if act == 0:
            out[at : at + 1] = bytes([chance.randrange(256)])
        elif act == 1:
            out[at : at + 2] = chance.choice((b"\xff\xff", b"\x00\x00", b"\x7f\xff"))
        elif act == 2 and len(out) > 400:
            del out[at : at + chance.randrange(1, 200)]
        elif act == 3:
            out[at:at] = out[at : at + chance.randrange(1, 200)]
        elif chance.random() < 0.02:
            del out[at:]
    return bytes(out)


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=int, default=600)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    chance, told, most = random.Random(options.seed), Counter[str](), 0
    files = [p.read_bytes() for folder in FOLDERS for p in sorted(folder.glob("*.*")) if p.suffix != ".json"]
    reader, until = ReaderProcess(BOUNDS), time.monotonic() + options.seconds
    while time.monotonic() < until:
        answer = reader.ask(together(spoilt(chance.choice(files), chance), None))
        if isinstance(answer, Gone):
            told["ended its process"] += 1
            reader.close()
            reader = ReaderProcess(BOUNDS)
            continue
        told["refused" if isinstance(answer, Unusable) else "read"] += 1
        most = max(most, psutil.Process(reader.pid).memory_info().rss)
    reader.close()
    print(f"{sum(told.values())} spoilt photos of {len(files)}: {dict(told)}; most memory {most >> 20} MiB")
    return 1 if told["ended its process"] or most > MOST_BYTES else 0


if __name__ == "__main__":
    sys.exit(main())
