"""Bodies that the places are put together from: plates, bolts, holes, hoses, rags."""

from __future__ import annotations

import math
from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from .relief import HEIGHT, WIDTH, Colour, Plane, Point, Relief

PAINT: Colour = (0.20, 0.33, 0.33)
CAST: Colour = (0.55, 0.56, 0.55)
ZINC: Colour = (0.66, 0.65, 0.60)
STEEL: Colour = (0.42, 0.43, 0.45)
RUBBER: Colour = (0.055, 0.055, 0.06)
BRASS: Colour = (0.62, 0.47, 0.20)
YELLOW: Colour = (0.92, 0.74, 0.05)
DARK: Colour = (0.02, 0.02, 0.022)


def _drawn(points: NDArray[np.float64]) -> Plane:
    """Fill a polygon, its edge smooth."""
    canvas = np.zeros((HEIGHT, WIDTH), np.uint8)
    cv2.fillPoly(canvas, [np.round(points * 16).astype(np.int32)], 255, lineType=cv2.LINE_AA, shift=4)
    return canvas.astype(np.float32) / 255


def _inward(mask: Plane) -> Plane:
    return np.asarray(cv2.distanceTransform((mask > 0.5).astype(np.uint8), cv2.DIST_L2, 5), np.float32)


def circle(middle: Point, radius: float) -> Plane:
    """Give the mask of a disc."""
    turn = np.linspace(0, 2 * math.pi, 120, endpoint=False)
    return _drawn(np.stack((middle[0] + radius * np.cos(turn), middle[1] + radius * np.sin(turn)), 1))


def hull(discs: Sequence[tuple[Point, float]]) -> Plane:
    """Give the mask of what a band round some discs holds: the flanges of castings."""
    turn = np.linspace(0, 2 * math.pi, 90, endpoint=False)
    rim = [np.stack((x + r * np.cos(turn), y + r * np.sin(turn)), 1) for (x, y), r in discs]
    around = cv2.convexHull(np.concatenate(rim).astype(np.float32))
    return _drawn(around[:, 0, :].astype(np.float64))


def box(corner: Point, size: Point, round_: float = 20) -> Plane:
    """Give the mask of a rectangle with round corners."""
    (x, y), (w, h) = corner, size
    ends = [(x + round_, y + round_), (x + w - round_, y + round_), (x + w - round_, y + h - round_)]
    return hull([(end, round_) for end in (*ends, (x + round_, y + h - round_))])


def raised(mask: Plane, base: float, top: float, edge: float) -> Plane:
    """Give heights that climb from base to top within `edge` pixels of the rim, round like a casting."""
    climb = np.clip(_inward(mask) / edge, 0, 1)
    return np.asarray(base + (top - base) * np.sqrt(1 - (1 - climb) ** 2), np.float32)


def plate(  # noqa: PLR0913 - a shape and its looks
    on: Relief, mask: Plane, top: float, colour: Colour, *, edge: float = 10, gloss: float = 0.25
) -> None:
    """Lay a plate that stands `top` above the ground."""
    on.lay(mask, raised(mask, 0, top, edge) + 0.4 * on.noise(5, 9), colour, gloss=gloss)


def hole(on: Relief, at: Point, radius: float, base: float, depth: float = 70) -> None:
    """Sink a hole: a bright chamfer, a dark bottom."""
    on.lay(circle(at, radius + 4), base - 2, ZINC, gloss=0.5)
    mask = circle(at, radius)
    on.lay(mask, base - depth * np.clip(_inward(mask) / 4, 0, 1), DARK, gloss=0.05)


def _hexagon(at: Point, across: float, turn: float) -> Plane:
    corners = [turn + k * math.pi / 3 for k in range(6)]
    reach = across / math.sqrt(3)
    return _drawn(np.array([(at[0] + reach * math.cos(a), at[1] + reach * math.sin(a)) for a in corners]))


def bolt(  # noqa: PLR0913 - where it sits and how it was left
    on: Relief, at: Point, size: float, base: float, *, turn: float = 0.3, proud: int = 0
) -> None:
    """Put in a bolt with washer; `proud` pixels of thread stand out where it is not run home."""
    on.lay(circle(at, size * 0.92), base + 3, ZINC, gloss=0.6)
    for ring in range(proud):
        middle = (at[0] + 0.35 * ring, at[1] - 0.85 * ring)
        thread = STEEL if ring % 5 < 3 else DARK
        on.lay(circle(middle, size * 0.42), base + 4 + 2.2 * ring, thread, gloss=0.4)
    head, top = (at[0] + 0.35 * proud, at[1] - 0.85 * proud), base + 3 + 2.2 * proud
    mask = _hexagon(head, size * 1.32, turn)
    dome = top + size * 0.42 * np.clip(_inward(mask) / 5, 0, 1) ** 0.5
    on.lay(mask, dome, ZINC, gloss=0.75)
    on.lay(circle(head, size * 0.36), top + size * 0.40, STEEL, gloss=0.5)


def paint_mark(on: Relief, at: Point, size: float, turn: float) -> None:
    """Draw a stripe of paint over a head and what it sits on."""
    along = np.array((math.cos(turn), math.sin(turn)))
    across = np.array((-along[1], along[0])) * size * 0.14
    start, end = np.array(at) + along * size * 0.1, np.array(at) + along * size * 1.5
    mask = _drawn(np.array((start + across, end + across, end - across, start - across)))
    on.lay(mask, on.height + 1.5, YELLOW, gloss=0.3)


def _far_from(points: Sequence[Point]) -> Plane:
    line = np.full((HEIGHT, WIDTH), 255, np.uint8)
    cv2.polylines(line, [np.round(np.array(points)).astype(np.int32)], False, 0, 1)
    return np.asarray(cv2.distanceTransform(line, cv2.DIST_L2, 5), np.float32)


def hose(on: Relief, path: Sequence[Point], radius: float, base: float, colour: Colour = RUBBER) -> None:
    """Lead a hose or a cable along a path."""
    far = _far_from(path)
    mask = np.clip(radius - far + 0.5, 0, 1)
    on.lay(mask, base + np.sqrt(np.clip(radius**2 - far**2, 0, None)), colour, gloss=0.35)


def clamp(on: Relief, at: Point, turn: float, radius: float, base: float) -> None:
    """Put a clamp round a hose: a bright band and its screw."""
    along = np.array((math.cos(turn), math.sin(turn)))
    across = np.array((-along[1], along[0]))
    ends = [tuple(np.array(at) + across * s * radius * 0.93) for s in (-1, 1)]
    far = _far_from([(float(x), float(y)) for x, y in ends])
    band = np.clip(11 - far + 0.5, 0, 1)
    on.lay(band, on.height + 4, ZINC, gloss=0.9)
    screw = np.array(at) + across * radius * 0.45
    plate_at = hull(
        [((float(screw[0] + along[0] * s), float(screw[1] + along[1] * s)), 10) for s in (-20, 20)]
    )
    on.lay(plate_at, on.height + 9, STEEL, gloss=0.7)


def rag(on: Relief, middle: Point, size: Point, colour: Colour, salt: int) -> None:
    """Let a crumpled rag lie."""
    turn = np.linspace(0, 2 * math.pi, 60, endpoint=False)
    rng = np.random.default_rng((on.seed, salt))
    wave = 1 + 0.13 * np.sin(turn * 3 + rng.uniform(0, 6)) + 0.08 * np.sin(turn * 7 + rng.uniform(0, 6))
    rim = np.stack((middle[0] + size[0] * wave * np.cos(turn), middle[1] + size[1] * wave * np.sin(turn)), 1)
    mask = _drawn(rim)
    folds = np.abs(on.noise(70, salt)) * 16 + np.abs(on.noise(33, salt + 1)) * 8
    on.lay(
        mask,
        14 + folds + 10 * np.clip(_inward(mask) / 30, 0, 1) + 0.7 * on.noise(2, salt),
        colour,
        gloss=0.02,
    )
