"""Prints how many drawn phone-like labels the cascade reads, beside each library alone and all of them together.

    python -m tests.bench.label_bars [FRAMES]

Symbols come from segno (versions 1 to 10, all levels), printed on paper with a crease, oil, half shadow, glare, tilt
to 50 degrees, any turn, blur, motion, grain and JPEG. Public suites of real phone photos are not shipped by any
package that we use, so none is measured here. FRAMES of 1200 x 900 pixels hold up to three labels each (default 120).
"""

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field

import cv2
import numpy as np
import numpy.typing as npt
import segno
import zxingcpp
from pyzbar import pyzbar

from lastbolt.vision.decode import find_labels

Picture = npt.NDArray[np.uint8]
Texts = set[str]
WIDTH, HEIGHT = 1200, 900
TROUBLES = ("plain", "oil", "crease", "glare", "shadow", "blur", "motion", "dark", "far")
QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCodeModel2)


@dataclass
class Reader:
    """One way to read a frame, and what it reached."""

    read: Callable[[Picture], Texts]
    got: dict[str, int] = field(default_factory=lambda: dict.fromkeys(TROUBLES, 0))
    seconds: list[float] = field(default_factory=list)


def paper(rng: np.random.Generator, text: str, trouble: str) -> Picture:
    """A printed label of about 400 pixels with what has happened to it."""
    version, level = int(rng.integers(1, 11)), str(rng.choice(list("lmqh")))
    try:
        code = segno.make(text, version=version, error=level, micro=False, boost_error=False)
    except segno.DataOverflowError:
        code = segno.make(text, error=level, micro=False, boost_error=False)
    bits = np.pad(1 - np.array(code.matrix, dtype=np.float32), 4, constant_values=1)
    cell = max(4, 400 // len(bits))
    sheet = 40 + 190 * np.kron(bits, np.ones((cell, cell), np.float32))
    size = len(sheet)
    y, x = np.mgrid[0:size, 0:size].astype(np.float32) / size
    if trouble == "oil":
        for _ in range(int(rng.integers(1, 4))):
            at, wide = rng.random(2), rng.uniform(0.05, 0.2)
            soaked = np.clip((wide - np.hypot(x - at[0], y - at[1])) / 0.02, 0, 1) * rng.uniform(0.3, 0.75)
            sheet = sheet * (1 - soaked)
    if trouble == "crease":
        slope, at = rng.uniform(-0.6, 0.6), rng.uniform(0.25, 0.75)
        far = x + slope * (y - 0.5) - at
        sheet = sheet * (1 - 0.5 * np.exp(-((far / 0.012) ** 2))) + 90 * np.exp(-(((far - 0.02) / 0.01) ** 2))
        bent = (x * size + np.where(far > 0, far, 0) ** 2 * size * rng.uniform(-0.5, 0.5)).astype(np.float32)
        sheet = cv2.remap(
            sheet, bent, (y * size).astype(np.float32), cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
        )
    if trouble == "glare":
        at, wide = rng.random(2), rng.uniform(0.06, 0.2)
        sheet = sheet + 260 * np.exp(-(((x - at[0]) ** 2 + (y - at[1]) ** 2) / (2 * wide**2)))
    return sheet.clip(0, 255).astype(np.uint8)


def put(rng: np.random.Generator, frame: Picture, sheet: Picture, slot: int, trouble: str) -> Picture:
    """Lay a label into its third of the frame, tilted, turned and seen from near or far."""
    size, tilt = len(sheet), np.radians(rng.uniform(0, 50))
    edge = rng.uniform(110, 160) if trouble == "far" else rng.uniform(170, 300)
    corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * edge / 2
    turn = rng.random() * 2 * np.pi
    corners = corners @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    depth = 1 + corners[:, 1:] * np.sin(tilt) / (edge * 4)
    corners = corners * [1, np.cos(tilt)] / depth
    middle = np.array([(slot + 0.5) * WIDTH / 3, HEIGHT / 2]) + rng.uniform(-1, 1, 2) * [20, 220]
    source = np.array([[0, 0], [size, 0], [size, size], [0, size]], np.float32) - 0.5
    matrix = cv2.getPerspectiveTransform(source, (corners + middle).astype(np.float32))
    shown = cv2.warpPerspective(sheet, matrix, (WIDTH, HEIGHT), flags=cv2.INTER_AREA)
    inside = cv2.warpPerspective(np.full_like(sheet, 255), matrix, (WIDTH, HEIGHT))
    return np.where(inside > 127, shown, frame).astype(np.uint8)


def photo(rng: np.random.Generator, index: int) -> tuple[Picture, Texts, str]:
    """A frame, the texts in it, and its trouble."""
    trouble = TROUBLES[index % len(TROUBLES)]
    cloud = cv2.resize(
        rng.normal(0, 1, (24, 32)).astype(np.float32), (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC
    )
    frame = (rng.uniform(60, 180) + 14 * cloud + rng.normal(0, 6, cloud.shape)).clip(0, 255).astype(np.uint8)
    texts = [f"HTTP://DRAWN.EXAMPLE/T/{index:03d}{slot}" for slot in range(int(rng.integers(1, 4)))]
    for slot, text in enumerate(texts):
        frame = put(rng, frame, paper(rng, text, trouble), slot, trouble)
    work = frame.astype(np.float32)
    if trouble == "shadow":
        edge = (
            np.arange(WIDTH)[None] + rng.uniform(-1, 1) * np.arange(HEIGHT)[:, None] - rng.uniform(0, WIDTH)
        )
        work = work * (1 - 0.75 / (1 + np.exp(-edge / 4)))
    blur = rng.uniform(1.3, 2.4) if trouble == "blur" else rng.uniform(0.4, 0.9)
    work = cv2.GaussianBlur(work, (0, 0), blur)
    if trouble == "motion":
        wide = int(rng.integers(4, 9))
        work = cv2.filter2D(work, -1, np.full((1, wide), 1 / wide, np.float32))
    gain, grain = (0.2, 5.0) if trouble == "dark" else (1.0, 3.0)
    work = work * gain + rng.normal(0, grain, work.shape)
    packed = cv2.imencode(".jpg", work.clip(0, 255).astype(np.uint8), [cv2.IMWRITE_JPEG_QUALITY, 80])[1]
    return np.asarray(cv2.imdecode(packed, cv2.IMREAD_GRAYSCALE), np.uint8), set(texts), trouble


def opencv_texts(frame: Picture) -> Texts:
    try:
        return set(cv2.QRCodeDetector().detectAndDecodeMulti(frame)[1])
    except cv2.error:  # it gives up with an error on some noisy frames
        return set()


def readers() -> dict[str, Reader]:
    return {
        "cascade": Reader(lambda frame: {mark.text for mark in find_labels(frame)}),
        "zxing-cpp alone": Reader(
            lambda frame: {code.text for code in zxingcpp.read_barcodes(frame, formats=QR)}
        ),
        "pyzbar alone": Reader(
            lambda frame: {code.data.decode("utf-8", "replace") for code in pyzbar.decode(frame)}
        ),
        "OpenCV alone": Reader(opencv_texts),
    }


def main() -> int:
    frames = int(sys.argv[1]) if len(sys.argv) > 1 else 120
    ways, union, total = readers(), dict.fromkeys(TROUBLES, 0), dict.fromkeys(TROUBLES, 0)
    for index in range(frames):
        frame, texts, trouble = photo(np.random.default_rng([88, index]), index)
        found: Texts = set()
        for way in ways.values():
            start = time.perf_counter()
            got = way.read(frame) & texts
            way.seconds.append(time.perf_counter() - start)
            way.got[trouble] += len(got)
            found |= got
        union[trouble] += len(found)
        total[trouble] += len(texts)
    print(f"{sum(total.values())} drawn labels in {frames} frames; of which read:")
    print(f"{'':<17}" + "".join(f"{name:>8}" for name in TROUBLES) + "     all  of the union   ms a frame")
    for name, way in [*ways.items(), ("all together", Reader(lambda frame: set(), union))]:
        reached = sum(way.got.values())
        ms = f"{1000 * float(np.median(way.seconds)):>10.0f}" if way.seconds else ""
        row = "".join(f"{way.got[t]:>8}" for t in TROUBLES)
        print(f"{name:<17}{row}{reached:>8}{100 * reached / max(1, sum(union.values())):>12.1f} %{ms}")
    print(f"{'drawn':<17}" + "".join(f"{total[t]:>8}" for t in TROUBLES) + f"{sum(total.values()):>8}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
