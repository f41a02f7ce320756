"""Places on labels and pages."""

import pytest

from lastbolt.labels.layout import Box, check_boxes, label_parts, on_paper

from .layouts import MATS, SHEETS, label_layout, mat_layout


@pytest.mark.parametrize("name", SHEETS)
def test_nothing_on_a_label_touches_the_quiet_zone_or_leaves_the_label(name: str) -> None:
    template = label_layout(name)
    parts, quiet = label_parts(template), 4 * template.symbol.edge_mm / 21
    width, height = template.grid.label_width_mm, template.grid.label_height_mm
    if template.grid.turned:
        width, height = height, width
    assert parts.symbol.left >= quiet - 1e-9
    assert parts.symbol.top >= quiet - 1e-9
    assert parts.symbol.right + quiet <= width + 1e-9
    assert parts.symbol.bottom + quiet <= height + 1e-9
    for box in (parts.kind, parts.code, parts.writing):
        beside = box.left >= parts.symbol.right + quiet - 1e-9
        below = box.top >= parts.symbol.bottom + quiet - 1e-9
        assert beside or below
        assert box.right <= width
        assert box.bottom <= height


@pytest.mark.parametrize("name", SHEETS)
def test_kind_code_and_writing_stand_below_each_other(name: str) -> None:
    parts = label_parts(label_layout(name))
    assert parts.kind.bottom < parts.code.top < parts.code.bottom < parts.writing.top < parts.writing.bottom


def test_a_turned_label_stands_on_its_left_side() -> None:
    cell = Box(10.0, 20.0, 57.0, 40.0)
    up_left = on_paper(Box(0.0, 0.0, 5.0, 3.0), cell, turned=True)
    assert up_left == Box(10.0, 55.0, 3.0, 5.0)
    assert on_paper(Box(1.0, 2.0, 5.0, 3.0), cell, turned=False) == Box(11.0, 22.0, 5.0, 3.0)


def test_cells_run_row_by_row() -> None:
    grid = label_layout("a4-3x8").grid
    assert (grid.cell(0).left, grid.cell(0).top) == (grid.left_mm, grid.top_mm)
    assert grid.cell(2).left == pytest.approx(grid.left_mm + 2 * grid.pitch_x_mm)
    assert grid.cell(3) == Box(grid.left_mm, grid.top_mm + grid.pitch_y_mm, 66.6, 34.8)


@pytest.mark.parametrize("name", MATS)
def test_a_mat_keeps_its_words_off_the_field(name: str) -> None:
    template = mat_layout(name)
    for box in check_boxes(template).values():
        assert box.top > template.field.bottom + 4.0


def test_a_roll_has_no_square_but_a_line() -> None:
    assert set(check_boxes(label_layout("roll-57x40"))) == {"check line"}
    assert set(check_boxes(label_layout("a4-3x8"))) == {"check line", "scale square", "title"}
