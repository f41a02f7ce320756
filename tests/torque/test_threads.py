import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
from lastbolt.torque.datafile import read_table
from lastbolt.torque.heads import find_head_candidates, listed_heads
from lastbolt.torque.six_lobe import nearest_six_lobe
from lastbolt.torque.strength import class_names, property_class
from lastbolt.torque.threads import (
    MetricThread,
    ThreadDesignation,
    coarse_thread,
    metric_threads,
    parse_thread,
    require_coarse_thread,
)
from lastbolt.torque.unreadable import Unreadable
from lastbolt.torque.washers import clearance_hole, plain_washer

TABLES = [
    "threads", "property_classes", "proof_loads", "bearing_faces", "heads", "washers", "clearance_holes",
    "six_lobe", "six_lobe_heads",
]  # fmt: skip


@pytest.mark.parametrize("name", TABLES)
def test_every_row_names_its_source_and_none_stands_twice(name: str) -> None:
    rows = read_table(name)
    assert all(row["source"].strip() for row in rows)
    assert all(set(row) == set(rows[0]) for row in rows)
    assert len({tuple(row.items()) for row in rows}) == len(rows)


@pytest.mark.parametrize(
    ("text", "diameter", "pitch", "length"),
    [
        ("M8", 8, 1.25, None),
        ("m8x1", 8, 1, None),
        ("M8×1,25×20", 8, 1.25, 20),
        ("M10x1.5x30", 10, 1.5, 30),
        ("M8x30", 8, 1.25, 30),
        ("M12x1.5x12/nut", 12, 1.5, 12),
        ("M3x4", 3, 0.5, 4),
        ("M 6 x 16 12.9", 6, 1, 16),
    ],
)
def test_reads_designations(text: str, diameter: float, pitch: float, length: float | None) -> None:
    found = parse_thread(text)
    assert isinstance(found, ThreadDesignation)
    assert (found.thread, found.length_mm) == (MetricThread(diameter, pitch), length)


@pytest.mark.parametrize("text", ["", "8", "Mx", "M13", "M8x1.3", "M8x1.3x20", "M8x1x", "1/4-28", "M999"])
def test_says_how_to_write_a_thread(text: str) -> None:
    found = parse_thread(text)
    assert isinstance(found, Unreadable)
    assert 'Write it like "M8"' in found.reason


@given(st.sampled_from(metric_threads()))
def test_a_name_reads_back_as_the_same_thread(thread: MetricThread) -> None:
    found = parse_thread(thread.name)
    assert isinstance(found, ThreadDesignation)
    assert found.thread == thread


@given(st.sampled_from(metric_threads()))
def test_diameters_nest(thread: MetricThread) -> None:
    assert (
        thread.root_diameter_mm < thread.nut_minor_diameter_mm < thread.pitch_diameter_mm < thread.diameter_mm
    )
    coarse = coarse_thread(thread.diameter_mm)
    assert coarse is not None
    assert coarse.stress_area_mm2 <= thread.stress_area_mm2


def test_unknown_things_are_none() -> None:
    assert property_class("7T", 8) is None
    assert coarse_thread(13) is None
    assert plain_washer(13) is None
    assert clearance_hole(13) is None


def test_classes_rise_in_tensile_strength() -> None:
    strengths = [property_class(name, 10) for name in class_names()]
    values = [strength.tensile_mpa for strength in strengths if strength]
    assert values == sorted(values)


@pytest.mark.parametrize("diameter", [6, 8, 10, 12, 16, 20])
def test_a_true_head_and_shank_put_the_right_size_first(diameter: int) -> None:
    for head in listed_heads():
        if head.diameter_mm == diameter:
            best = find_head_candidates(head.width_mm, diameter - 0.15)[0]
            assert best.thread.diameter_mm == diameter
            assert head in best.heads


def test_round_heads_give_keys_instead_of_spanners() -> None:
    best = find_head_candidates(14.0, 7.9)[0]
    assert best.heads[0].standard == "ISO 7380-1"
    assert {5, 6} <= best.keys_mm


def test_a_thread_that_must_be_listed_raises_when_it_is_not() -> None:
    with pytest.raises(BadInputError, match="M13"):
        require_coarse_thread(13)


def test_a_reduced_shank_still_fits_and_a_wrong_one_does_not() -> None:
    assert [one.thread.name for one in find_head_candidates(13.0, 7.2)] == ["M8"]
    assert find_head_candidates(13.0, 30.0) == ()


def test_a_hexagon_seen_across_corners_fits_when_its_turn_is_unknown() -> None:
    across_corners = 13 / 0.8660254
    assert "M8" not in [one.thread.name for one in find_head_candidates(across_corners, 7.9)
                        if any(head.kind == "hexagon" for head in one.heads)]  # fmt: skip
    best = find_head_candidates(across_corners, 7.9, is_turned_unknown=True)[0]
    assert best.thread.name == "M8"
    assert 13 in best.spanners_mm


def test_a_head_alone_gives_several_sizes() -> None:
    names = {one.thread.name for one in find_head_candidates(10.0, None)}
    assert {"M6", "M8"} <= names  # hexagon M6, small flange M8


def test_measured_six_lobe_widths() -> None:
    assert nearest_six_lobe(5.55) == ("T30",)
    assert nearest_six_lobe(3.7, spread_mm=0.4) == ("T20", "T15")
    assert nearest_six_lobe(50) == ()
