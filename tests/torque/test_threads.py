import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.torque.datafile import read_table
from lastbolt.torque.strength import class_names, property_class
from lastbolt.torque.threads import (
    MetricThread,
    ThreadDesignation,
    coarse_thread,
    metric_threads,
    parse_thread,
)
from lastbolt.torque.unreadable import Unreadable
from lastbolt.torque.washers import plain_washer

TABLES = ["threads", "property_classes", "bearing_faces", "heads", "washers"]


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


def test_classes_rise_in_tensile_strength() -> None:
    strengths = [property_class(name, 10) for name in class_names()]
    values = [strength.tensile_mpa for strength in strengths if strength]
    assert values == sorted(values)
