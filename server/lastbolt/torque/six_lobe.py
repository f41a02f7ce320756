"""Internal six-lobe (hexalobular) drives: their sizes in mm and which screws have them."""

from lastbolt.torque.datafile import read_table
from lastbolt.units import Millimetres


def six_lobe_widths_mm() -> dict[str, Millimetres]:
    """Dimension A across the points of each size, mm (ISO 10664, `six_lobe.csv`).

    >>> six_lobe_widths_mm()["T30"]
    5.6
    """
    return {row["size"]: Millimetres(float(row["width_mm"])) for row in read_table("six_lobe")}


def six_lobe_sizes(diameter_mm: float) -> frozenset[str]:
    """The drive sizes that standard six-lobe screws of a thread diameter have: a set, since they differ.

    >>> sorted(six_lobe_sizes(8))
    ['T40', 'T45']
    """
    return frozenset(
        row["size"] for row in read_table("six_lobe_heads") if float(row["diameter_mm"]) == diameter_mm
    )


def nearest_six_lobe(width_mm: Millimetres, *, spread_mm: float = 0.15) -> tuple[str, ...]:
    """The sizes within a spread of a measured width across the points, the nearest first.

    >>> nearest_six_lobe(3.9)
    ('T20',)
    """
    distances = {size: abs(width - width_mm) for size, width in six_lobe_widths_mm().items()}
    return tuple(
        size for size in sorted(distances, key=distances.__getitem__) if distances[size] <= spread_mm
    )
