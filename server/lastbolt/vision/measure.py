"""From one part's ends and widths in pixels to millimetres with their plus or minus, and the thread."""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from lastbolt.torque.datafile import read_table
from lastbolt.torque.heads import listed_heads
from lastbolt.torque.washers import plain_washer
from lastbolt.vision.outcome import Points
from lastbolt.vision.rectify import Plane

_LARGEST_MM = 16.0
_FAMILY = "ISO"
_SIZE_SIGMA_MM = 0.7
"""Scatter of the network's widths on rendered photos with known scale, rounded up."""
_END_SIGMA_MM = 0.8
_END_SHARE = 0.02
"""Scatter of the ends: a fixed share, and one that grows with length."""
_SHORTEST = 1.25
"""A bolt that looks shorter than this many diameters stands on its head or leans; its length is not told."""
_BOLTS = ("hex_bolt", "socket_screw", "flange_bolt")


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """What was seen of one part, in pixels of the photo."""

    kind: str
    centre: Points
    under: Points
    tip: Points
    head_px: float
    shank_px: float
    standing: bool


@dataclass(frozen=True, slots=True)
class Sizes:
    """Millimetres; None where the view does not show it."""

    length_mm: float | None
    head_mm: float | None
    shank_mm: float | None
    thread: str | None
    plus_minus_mm: float
    """Two standard deviations of the length, or of the head where there is no length."""


def measure(seen: Seen, plane: Plane) -> Sizes:
    """Length under the head, head width and shank diameter of one part on the plane.

    The part's own height is taken into account: the axis of a lying bolt is half a head above the floor at
    its head and half a shank at its tip.
    """
    unit = plane.mm_per_px(seen.centre)
    head, shank = seen.head_px * unit, seen.shank_px * unit
    above = head * 0.45 if seen.kind in _BOLTS else 0.0
    unit = plane.mm_per_px(seen.centre, above)
    head, shank = seen.head_px * unit, seen.shank_px * unit
    relative = plane.scale_sigma_at(seen.centre)
    if seen.kind not in _BOLTS:
        known = seen.kind in ("hex_nut", "washer")
        sigma = math.hypot(_SIZE_SIGMA_MM, head * relative)
        thread = nearest_thread(seen.kind, head, shank) if known else None
        return Sizes(None, _tenth(head) if known else None, None, thread, _tenth(2 * sigma))
    thread = nearest_thread(seen.kind, head, shank)
    heights = np.array([head * 0.45, shank * 0.5])
    ends = plane.floor_points(np.stack([seen.under, seen.tip]), heights)
    length = math.hypot(float(np.linalg.norm(ends[0] - ends[1])), float(heights[0] - heights[1]))
    if seen.standing or length < _SHORTEST * shank:
        sigma = math.hypot(_SIZE_SIGMA_MM, head * relative)
        return Sizes(None, _tenth(head), _tenth(shank), thread, _tenth(2 * sigma))
    sigma = math.hypot(_END_SIGMA_MM, length * _END_SHARE, length * relative)
    return Sizes(_tenth(length), _tenth(head), _tenth(shank), thread, _tenth(2 * sigma))


def nearest_thread(kind: str, head_mm: float, shank_mm: float) -> str | None:
    """The coarse metric thread whose head and shank lie nearest; None when none is near."""
    best, apart = None, 3.0
    for diameter, width in _widths({"socket_screw": "socket", "washer": "washer"}.get(kind, "hexagon")):
        score = math.hypot((head_mm - width) / 0.9, (shank_mm - diameter) / 0.5)
        if score < apart:
            best, apart = f"M{diameter:g}", score
    return best


@cache
def _widths(what: str) -> tuple[tuple[float, float], ...]:
    """Thread diameter and width of head, nut or washer of each size in the torque module's tables, mm."""
    if what == "washer":
        sizes = (float(row["diameter_mm"]) for row in read_table("washers"))
        found = [(size, float(washer.outer_mm)) for size in sizes if (washer := plain_washer(size))]
    else:
        plain = [head for head in listed_heads() if head.kind == what and head.family == _FAMILY]
        found = [(float(h.diameter_mm), float(h.width_mm)) for h in plain if "knurled" not in h.standard]
    return tuple(sorted(pair for pair in found if pair[0] <= _LARGEST_MM))


def _tenth(value: float) -> float:
    return round(float(value), 1)
