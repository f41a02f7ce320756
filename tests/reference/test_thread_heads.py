"""Hexagon, socket, button, flange and washer sizes against two libraries and a service manual."""

import pytest

from lastbolt.torque.heads import listed_heads, spanner_sizes_mm
from lastbolt.torque.washers import plain_washer

# Read in bd-warehouse 0.4.0 (CSV) and in a second open library; where they differ the set holds both customs.
# M14 AF 21 from memory of the ISO value. JIS column: generic bolt table of a
# Japanese car maker's service manual (read).
# thread, ISO AF, DIN AF, JIS AF, ISO 4762 (s, dk plain, dk knurled), ISO 7089 (d1, d2, h), ISO 7380-1 (s, dk)
HEADS = [
    (3, 5.5, None, None, (2.5, 5.5, 5.68), (3.2, 7, 0.5), (2, 5.7)),
    (4, 7, None, None, (3, 7, 7.22), (4.3, 9, 0.8), (2.5, 7.6)),
    (5, 8, None, None, (4, 8.5, 8.72), (5.3, 10, 1.0), (3, 9.5)),
    (6, 10, None, 10, (5, 10, 10.22), (6.4, 12, 1.6), (4, 10.5)),
    (8, 13, None, 12, (6, 13, 13.27), (8.4, 16, 1.6), (5, 14)),
    (10, 16, 17, 14, (8, 16, 16.27), (10.5, 20, 2.0), (6, 17.5)),
    (12, 18, 19, 17, (10, 18, 18.27), (13, 24, 2.5), (8, 21)),
    (14, 21, 22, 19, (12, 21, 21.33), (15, 28, 2.5), None),
    (16, 24, None, None, (14, 24, 24.33), (17, 30, 3.0), (10, 28)),
    (20, 30, None, None, (17, 30, 30.33), (21, 37, 3.0), None),
    (24, 36, None, None, (19, 36, 36.39), (25, 44, 4.0), None),
]
# Read in both libraries.
FLANGES = {
    "EN 1662": {6: 8, 8: 10, 10: 13, 12: 16},
    "EN 1665": {6: 10, 8: 13, 10: 16, 12: 18},
    "ISO 4161 nut": {6: 10, 8: 13, 10: 15, 12: 18},
}


@pytest.mark.parametrize(("diameter", "iso", "din", "jis", "socket", "washer", "button"), HEADS)
def test_head_sizes(
    diameter: int,
    iso: float,
    din: float | None,
    jis: float | None,
    socket: tuple[float, float, float],
    washer: tuple[float, float, float],
    button: tuple[float, float] | None,
) -> None:
    assert spanner_sizes_mm(diameter, {"ISO"}) == {iso}
    assert spanner_sizes_mm(diameter) == {iso, din} - {None}
    assert spanner_sizes_mm(diameter, {"ISO", "DIN", "JIS"}) == {iso, din, jis} - {None}
    sockets = [head for head in listed_heads() if head.kind == "socket" and head.diameter_mm == diameter]
    assert {head.key_mm for head in sockets} == {socket[0]}
    assert {head.width_mm for head in sockets} == set(socket[1:])
    found = plain_washer(diameter)
    assert found is not None
    assert (found.inner_mm, found.outer_mm, found.thickness_mm) == washer
    buttons = {(head.key_mm, head.width_mm) for head in listed_heads()
               if head.kind == "button" and head.diameter_mm == diameter}  # fmt: skip
    assert buttons == ({button} if button else set())


@pytest.mark.parametrize("standard", FLANGES)
def test_flange_sizes(standard: str) -> None:
    listed = {head.diameter_mm: head.width_mm for head in listed_heads() if head.standard == standard}
    assert listed == FLANGES[standard]
