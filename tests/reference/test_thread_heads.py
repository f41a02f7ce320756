"""Hexagon, socket, button, flange, washer and six-lobe sizes against two libraries and a service manual."""

import pytest

from lastbolt.torque.heads import (
    ALL_FAMILIES,
    find_head_candidates,
    key_sizes_mm,
    listed_heads,
    spanner_sizes_mm,
)
from lastbolt.torque.six_lobe import six_lobe_sizes, six_lobe_widths_mm
from lastbolt.torque.washers import clearance_hole, plain_washer

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
# ISO 10664 A, mm, read in both libraries.
SIX_LOBE = {
    "T6": 1.75, "T8": 2.4, "T10": 2.8, "T15": 3.35, "T20": 3.95, "T25": 4.5, "T30": 5.6, "T40": 6.75,
    "T45": 7.93, "T50": 8.95, "T55": 11.35, "T60": 13.45, "T70": 15.7, "T80": 17.75, "T90": 20.2,
    "T100": 22.4,
}  # fmt: skip
# ISO 14581 read in bd-warehouse; ISO 14583 and 14579 (M8 → T40) from memory.
SIX_LOBE_HEADS = {3: {"T10"}, 4: {"T20"}, 5: {"T25"}, 6: {"T30"}, 8: {"T40", "T45"}, 10: {"T50"}}
# ISO 273: M6 to M10 read in bd-warehouse; M12 from memory (that library prints 14 and 15, US loose holes).
CLEARANCES = {6: (6.4, 6.6, 7), 8: (8.4, 9, 10), 10: (10.5, 11, 12), 12: (13, 13.5, 14.5)}


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
    assert spanner_sizes_mm(diameter, ALL_FAMILIES) == {iso, din, jis} - {None}
    assert key_sizes_mm(diameter, "socket") == {socket[0]}
    widths = {
        head.width_mm for head in listed_heads() if head.kind == "socket" and head.diameter_mm == diameter
    }
    assert widths == set(socket[1:])
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


def test_one_m10_flange_pair_can_need_two_spanners() -> None:
    assert {15, 16} <= key_sizes_mm(10, "flange")


def test_six_lobe_sizes() -> None:
    assert six_lobe_widths_mm() == SIX_LOBE
    assert {diameter: set(six_lobe_sizes(diameter)) for diameter in SIX_LOBE_HEADS} == SIX_LOBE_HEADS


@pytest.mark.parametrize("diameter", CLEARANCES)
def test_clearance_holes(diameter: int) -> None:
    hole = clearance_hole(diameter)
    assert hole is not None
    assert (hole.close_mm, hole.medium_mm, hole.coarse_mm) == CLEARANCES[diameter]


@pytest.mark.parametrize("diameter", [10, 12, 14])
def test_a_head_measured_between_iso_and_din_gives_both_spanners(diameter: int) -> None:
    sizes = sorted(spanner_sizes_mm(diameter))
    (best, *_) = find_head_candidates(sum(sizes) / 2, diameter - 0.15)
    assert best.thread.diameter_mm == diameter
    assert set(sizes) <= best.spanners_mm


@pytest.mark.parametrize("width", [12, 14, 17, 19])
def test_japanese_sizes_are_among_the_candidates(width: int) -> None:
    found = {candidate.thread.diameter_mm for candidate in find_head_candidates(width, None)}
    assert {12: 8, 14: 10, 17: 12, 19: 14}[width] in found
