"""Plain washers and clearance holes of ISO metric threads, mm."""

from dataclasses import dataclass

from lastbolt.torque.datafile import Row, read_table
from lastbolt.units import Millimetres


@dataclass(frozen=True)
class Washer:
    """A plain washer, mm; thickness is nominal (some libraries print the largest permitted)."""

    standard: str
    inner_mm: Millimetres
    outer_mm: Millimetres
    thickness_mm: Millimetres
    source: str


@dataclass(frozen=True)
class ClearanceHole:
    """Through holes for a bolt, mm, ISO 273."""

    close_mm: Millimetres
    medium_mm: Millimetres
    coarse_mm: Millimetres
    source: str


def plain_washer(diameter_mm: float) -> Washer | None:
    """The ISO 7089 washer for a thread diameter, or None when not listed (`washers.csv`).

    >>> plain_washer(10).outer_mm
    20.0
    """
    row = _find_row("washers", diameter_mm)
    if row is None:
        return None
    return Washer(
        row["standard"], _mm(row, "inner_mm"), _mm(row, "outer_mm"), _mm(row, "thickness_mm"), row["source"]
    )


def clearance_hole(diameter_mm: float) -> ClearanceHole | None:
    """The clearance holes for a thread diameter, or None when not listed (`clearance_holes.csv`).

    >>> clearance_hole(8).medium_mm
    9.0
    """
    row = _find_row("clearance_holes", diameter_mm)
    if row is None:
        return None
    return ClearanceHole(_mm(row, "close_mm"), _mm(row, "medium_mm"), _mm(row, "coarse_mm"), row["source"])


def _find_row(table: str, diameter_mm: float) -> Row | None:
    return next((row for row in read_table(table) if float(row["diameter_mm"]) == diameter_mm), None)


def _mm(row: Row, column: str) -> Millimetres:
    return Millimetres(float(row[column]))
