"""Prints the photo reader's bars over a folder of photos with recorded truth.

    python tests/bench/vision_bars.py [FOLDER ...]

Default: ../shared/photos/dev beside the project. A folder holds NAME.jpg with NAME.json as described beside the
development photos. Label reading is compared with pyzbar alone and zxing-cpp alone, time with the JPEG decode.
Run it with one core (`taskset -c 0`) for the time bars.
"""

import io
import json
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import zxingcpp
from PIL import Image
from pyzbar import pyzbar

from lastbolt.vision.count import count_classical
from lastbolt.vision.decode import find_labels
from lastbolt.vision.empty import is_empty
from lastbolt.vision.look import look
from lastbolt.vision.outcome import Look, SeenPart
from lastbolt.vision.pixels import read_photo

DEFAULT = Path(__file__).parents[3] / "shared" / "photos" / "dev"
NOMINAL_STEP_MM = 5.0
QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCodeModel2)


@dataclass
class Tally:
    """Everything counted over the photos."""

    rows: list[dict[str, Any]] = field(default_factory=list)
    labels: int = 0
    read: dict[str, int] = field(
        default_factory=lambda: {"cascade": 0, "pyzbar alone": 0, "zxing-cpp alone": 0}
    )
    lengths: list[tuple[float, float, float]] = field(default_factory=list)
    heads: list[float] = field(default_factory=list)
    kinds: list[bool] = field(default_factory=list)


def photos(folders: list[Path]) -> Iterator[tuple[bytes, dict[str, Any]]]:
    for folder in folders:
        for path in sorted(folder.glob("*.jpg")):
            yield path.read_bytes(), json.loads(path.with_suffix(".json").read_text())


def study(data: bytes, truth: dict[str, Any], tally: Tally) -> None:
    seen = look(data, lambda text: None)
    assert isinstance(seen, Look)
    photo = read_photo(data)
    assert photo
    labels = truth["labels"]
    edges = [np.linalg.norm(m.corners - np.roll(m.corners, 1, 0), axis=1).mean() for m in seen.labels]
    scale = 25.0 / float(np.median(edges)) if edges else 0.25
    baseline = count_classical(photo.image, scale, [m.corners for m in seen.labels]).count.count
    mode = "hard" if truth["scene"].get("hard") else truth["scene"]["mode"]
    tally.rows.append(
        {
            "mode": mode,
            "true": truth["count"],
            "count": seen.count,
            "baseline": baseline,
            "empty": is_empty(seen),
        }
    )
    grey = cv2.cvtColor(photo.image, cv2.COLOR_RGB2GRAY)
    readers = {
        "cascade": {mark.text for mark in seen.labels},
        "pyzbar alone": {code.data.decode("utf-8", "replace") for code in pyzbar.decode(grey)},
        "zxing-cpp alone": {code.text for code in zxingcpp.read_barcodes(grey, formats=QR)},
    }
    tally.labels += len(labels)
    for name, texts in readers.items():
        tally.read[name] += sum(label["payload"] in texts for label in labels)
    if mode != "hard":
        for part in truth["parts"]:
            compare(part, seen.parts, tally)


def compare(part: dict[str, Any], parts: tuple[SeenPart, ...], tally: Tally) -> None:
    box = np.array(part["bbox_px"]).reshape(2, 2)
    if part["visible_fraction"] < 0.9 or not parts:
        return
    middles = [(p.outline.max(0) + p.outline.min(0)) / 2 for p in parts]
    away = [float(np.linalg.norm(m - box.mean(0))) for m in middles]
    near = parts[int(np.argmin(away))]
    if min(away) > 25:
        return
    tally.kinds.append(near.kind == part["kind"])
    head = part.get("head_dia_mm", part.get("head_af_mm", part.get("outside_dia_mm")))
    if near.head_mm is not None and head:
        tally.heads.append(abs(near.head_mm - head))
    if near.length_mm is not None and "length_mm" in part and not part["standing"]:
        tally.lengths.append((near.length_mm, part["length_mm"], near.plus_minus_mm or 0.0))


def share(values: list[bool]) -> str:
    return f"{100 * float(np.mean(values)):5.1f} % of {len(values)}" if values else "none"


def print_counts(tally: Tally) -> None:
    rows = tally.rows
    for mode in ("separate", "touching", "hard", "piled", "mat", "few", "bare", "fair"):
        own = [row for row in rows if row["mode"] == mode]
        if own:
            learned = share([row["count"].count == row["true"] for row in own])
            classical = share([row["baseline"] == row["true"] for row in own])
            print(f"count exact, {mode:<9} learned {learned}   classical baseline {classical}")
    holds = [row["count"].low <= row["true"] <= row["count"].high for row in rows]
    widths = [row["count"].high - row["count"].low for row in rows]
    print(f"interval holds the truth  {share(holds)}, median width {np.median(widths):.0f}")
    hard = [h for h, row in zip(holds, rows, strict=True) if row["mode"] in ("hard", "piled")]
    print(f"  of these piled or hard  {share(hard)}")
    few = [row["empty"] == "yes" for row in rows if row["true"] in (1, 2)]
    print(f"1-2 parts called empty    {sum(few)} of {len(few)}")
    bare = [row["empty"] != "yes" for row in rows if row["true"] == 0]
    print(f"empty called not empty    {sum(bare)} of {len(bare)}")


def print_sizes(tally: Tally) -> None:
    if not tally.lengths:
        return
    found, true, said = np.array(tally.lengths).T
    gap = np.abs(found - true)
    right = gap < NOMINAL_STEP_MM / 2
    print(
        f"length under head         median error {np.median(gap):.2f} mm, nominal right {share(list(right))}"
    )
    print(f"  inside its plus-minus   {share(list(gap <= said))}")
    print(
        f"head width                median error {np.median(tally.heads):.2f} mm ({len(tally.heads)} parts)"
    )
    print(f"kind right                {share(tally.kinds)}")


def median_ms(
    work: Callable[[], object], times: int = 7, clock: Callable[[], float] = time.perf_counter
) -> float:
    taken = []
    for _ in range(times):
        start = clock()
        work()
        taken.append(clock() - start)
    return 1000 * float(np.median(taken))


ALONE = """
import sys, cv2
from lastbolt.vision.look import look
cv2.setNumThreads(1)
look(sys.stdin.buffer.read(), lambda text: None)
lines = open("/proc/self/status").read().splitlines()
print(next(float(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM")))
"""
"""Its own high water mark: what `getrusage` says holds that of the process that started it."""


def peak_mb(data: bytes) -> float:
    """The most memory that a process takes which looks at one photo and does nothing else."""
    done = subprocess.run([sys.executable, "-c", ALONE], input=data, capture_output=True, check=True)
    return float(done.stdout)


def print_times(data: bytes) -> None:
    """One 12-megapixel JPEG made from the first photo by enlarging it and adding grain."""
    small = read_photo(data)
    assert small
    large = cv2.resize(small.image, (4000, 3000), interpolation=cv2.INTER_CUBIC).astype(np.int16)
    large += np.random.default_rng(0).normal(0, 4, large.shape).astype(np.int16)
    out = io.BytesIO()
    Image.fromarray(large.clip(0, 255).astype(np.uint8)).save(out, "JPEG", quality=90)
    big = out.getvalue()
    del large
    cv2.setNumThreads(1)
    photo = read_photo(big)
    assert photo
    look(big, lambda text: None)
    floor = median_ms(lambda: read_photo(big))
    labels = median_ms(lambda: find_labels(photo.image))
    zbar = median_ms(lambda: pyzbar.decode(cv2.cvtColor(photo.image, cv2.COLOR_RGB2GRAY)), 3)
    every = median_ms(lambda: look(big, lambda text: None))
    print(
        f"12 MP JPEG, one thread    decode {floor:.0f} ms, labels {labels:.0f} ms, everything {every:.0f} ms"
    )
    print(
        f"  ratios                  labels/decode {labels / floor:.1f}, everything/decode {every / floor:.1f}, ",
        end="",
    )
    print(f"labels/pyzbar {labels / zbar:.2f}")
    spent = median_ms(lambda: look(big, lambda text: None), clock=time.process_time)
    print(f"  of the processor alone  everything {spent:.0f} ms")
    print(f"peak memory of one look   {peak_mb(big):.0f} MB, in a process of its own")


def main() -> int:
    folders = [Path(arg) for arg in sys.argv[1:]] or [DEFAULT]
    everything = list(photos(folders))
    if not everything:
        print(f"no photos with recorded truth in {', '.join(map(str, folders))}")
        return 2
    print_times(everything[0][0])
    tally = Tally()
    for data, truth in everything:
        study(data, truth, tally)
    print(f"{len(everything)} photos of {', '.join(folder.name for folder in folders)}")
    for name, number in tally.read.items():
        print(f"labels read, {name:<16} {number} of {tally.labels}")
    print_counts(tally)
    print_sizes(tally)
    return 0


if __name__ == "__main__":
    sys.exit(main())
