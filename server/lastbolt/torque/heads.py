"""Head widths and keys of ISO metric fasteners."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from lastbolt.torque.datafile import read_table
from lastbolt.units import Millimetres

COMMON_FAMILIES = frozenset({"ISO", "DIN"})


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

    >>> sorted(spanner_sizes_mm(10)), sorted(spanner_sizes_mm(10, {"ISO", "DIN", "JIS"}))
    ([16.0, 17.0], [14.0, 16.0, 17.0])
    """
    wanted = frozenset(families)
    return frozenset(
        head.width_mm
        for head in listed_heads()
        if head.kind == "hexagon" and head.diameter_mm == diameter_mm and head.family in wanted
    )
