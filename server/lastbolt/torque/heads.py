"""Head widths and keys of ISO metric fasteners, and which threads a measured head and shank can be."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from lastbolt.torque.datafile import read_table
from lastbolt.torque.threads import MetricThread, require_coarse_thread
from lastbolt.units import Millimetres

HEAD_SPREAD_MM = Millimetres(0.4)
SHANK_SPREAD_MM = Millimetres(0.3)
"""Spread of a careful measurement in the shop, one sigma (common practice, no source)."""

WORST_MISFIT = 9.0
COMMON_FAMILIES = frozenset({"ISO", "DIN"})
ALL_FAMILIES = frozenset({"ISO", "DIN", "JIS"})
_ROUND_HEADS = frozenset({"socket", "button"})


@dataclass(frozen=True)
class Head:
    """One head of one standard, mm: width across flats or round diameter, and the key that turns it."""

    diameter_mm: Millimetres
    kind: str
    standard: str
    family: str
    width_mm: Millimetres
    key_mm: Millimetres
    source: str


@dataclass(frozen=True)
class HeadCandidate:
    """A thread size that a measured head and shank can be, the best-fitting head first.

    `misfit` is the sum of squared deviations over spread, 0 for a perfect fit. Estimate: a head never tells
    the pitch, so measure it; `thread` names the coarse one.
    """

    thread: MetricThread
    heads: tuple[Head, ...]
    misfit: float

    @property
    def spanners_mm(self) -> frozenset[Millimetres]:
        """Spanner sizes of the hexagons and flanges that fit."""
        return frozenset(head.key_mm for head in self.heads if head.kind not in _ROUND_HEADS)

    @property
    def keys_mm(self) -> frozenset[Millimetres]:
        """Hexagon key sizes of the socket and button heads that fit."""
        return frozenset(head.key_mm for head in self.heads if head.kind in _ROUND_HEADS)


@cache
def listed_heads() -> tuple[Head, ...]:
    """All heads of the data file `heads.csv`, each with its source."""
    return tuple(
        Head(
            Millimetres(float(row["diameter_mm"])),
            row["head"],
            row["standard"],
            row["family"],
            Millimetres(float(row["width_mm"])),
            Millimetres(float(row["key"])),
            row["source"],
        )
        for row in read_table("heads")
    )


def spanner_sizes_mm(diameter_mm: float, families: Iterable[str] = COMMON_FAMILIES) -> frozenset[Millimetres]:
    """Spanner sizes for a plain hexagon of a thread diameter: a set, since standards differ.

    >>> sorted(spanner_sizes_mm(10)), sorted(spanner_sizes_mm(10, ALL_FAMILIES))
    ([16.0, 17.0], [14.0, 16.0, 17.0])
    """
    wanted = frozenset(families)
    return frozenset(
        head.width_mm
        for head in listed_heads()
        if head.kind == "hexagon" and head.diameter_mm == diameter_mm and head.family in wanted
    )


def key_sizes_mm(diameter_mm: float, kind: str) -> frozenset[Millimetres]:
    """Key or spanner sizes of one kind of head: "hexagon", "socket", "button" or "flange".

    >>> sorted(key_sizes_mm(10, "flange"))
    [13.0, 15.0, 16.0]
    """
    return frozenset(
        head.key_mm for head in listed_heads() if head.kind == kind and head.diameter_mm == diameter_mm
    )


def find_head_candidates(
    head_mm: Millimetres | None,
    shank_mm: Millimetres | None,
    *,
    head_spread_mm: Millimetres = HEAD_SPREAD_MM,
    shank_spread_mm: Millimetres = SHANK_SPREAD_MM,
    is_turned_unknown: bool = False,
) -> tuple[HeadCandidate, ...]:
    """Thread sizes that a measured head width and shank can be, the best first; None means not measured.

    A shank fits from pitch diameter (reduced shank) to nominal diameter. With `is_turned_unknown` a hexagon
    fits from across flats to across corners (flats / cos 30°), as in a picture of a lying bolt.
    Score: Σ((measured − listed)/spread)², kept up to 9 (common practice, no source).

    >>> best = find_head_candidates(16.5, 9.9)[0]
    >>> best.thread.name, sorted(best.spanners_mm)
    ('M10', [16.0, 17.0])
    """
    found = []
    for diameter in sorted({head.diameter_mm for head in listed_heads()}):
        thread = require_coarse_thread(diameter)
        shank_misfit = _misfit(shank_mm, (thread.pitch_diameter_mm, diameter), spread=shank_spread_mm)
        scored = sorted(
            (
                shank_misfit
                + _head_misfit(head_mm, head, is_turned_unknown=is_turned_unknown, spread=head_spread_mm),
                rank,
            )
            for rank, head in enumerate(listed_heads())
            if head.diameter_mm == diameter
        )
        fitting = tuple(listed_heads()[rank] for misfit, rank in scored if misfit <= WORST_MISFIT)
        if fitting:
            found.append(HeadCandidate(thread, fitting, scored[0][0]))
    return tuple(sorted(found, key=lambda candidate: candidate.misfit))


def _head_misfit(measured: float | None, head: Head, *, is_turned_unknown: bool, spread: float) -> float:
    is_hexagon = head.kind not in _ROUND_HEADS
    top = head.width_mm / math.cos(math.pi / 6) if is_turned_unknown and is_hexagon else head.width_mm
    return _misfit(measured, (head.width_mm, top), spread=spread)


def _misfit(measured: float | None, interval: tuple[float, float], *, spread: float) -> float:
    """How far a measurement lies outside an interval, in squared spreads; 0 when it was not measured."""
    if measured is None:
        return 0.0
    return (max(interval[0] - measured, measured - interval[1], 0.0) / spread) ** 2
