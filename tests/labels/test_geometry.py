"""Layouts that cannot be printed are told why."""

import pytest

from lastbolt.errors import TemplateError
from lastbolt.labels.template import parse_template

from .layouts import MATS, SHEETS, layout_text


def mistakes_after(name: str, *changes: tuple[str, str]) -> list[str]:
    text = layout_text(name)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    with pytest.raises(TemplateError) as caught:
        parse_template(text)
    return caught.value.mistakes


@pytest.mark.parametrize("name", SHEETS + MATS)
def test_the_layouts_that_come_with_the_program_have_no_mistakes(name: str) -> None:
    parse_template(layout_text(name))


@pytest.mark.parametrize(
    ("name", "old", "new", "part"),
    [
        ("a4-3x8", "columns = 3", "columns = 4", "right of the 210 mm wide paper"),
        ("a4-3x8", "rows = 8", "rows = 9", "below the 297 mm high paper"),
        ("a4-3x8", "pitch_x_mm = 66.6", "pitch_x_mm = 60.0", "pitch_x_mm is less than label_width_mm"),
        ("a4-3x8", "pitch_y_mm = 34.8", "pitch_y_mm = 33.0", "pitch_y_mm is less than label_height_mm"),
        ("a4-3x8", "columns = 3", "columns = 3\nstart = 25", "the page has only 24 labels"),
        ("a4-3x8", "edge_mm = 25.0", "edge_mm = 26.0", "needs 35.9 mm, but a label is 66.6 x 34.8 mm"),
        ("a4-3x8", "edge_mm = 25.0", "edge_mm = 10.2", "modules of 0.49 mm; the least is 0.5 mm"),
        ("a4-3x8", "code_mm = 8.0", "code_mm = 9.0", "a code 9 mm high does not fit into 30.2 mm"),
        ("a4-3x8", "pad_mm = 1.5", "pad_mm = 20.0", "are left for the text"),
        ("a4-3x8", "lines = 2", "lines = 4", "lines = 4 needs 20 mm"),
        ("a4-3x8", "margin_mm = 5.0", "margin_mm = 9.0", "the symbol of label 1"),
        ("a4-3x8", "line_top_mm = 282.4", "line_top_mm = 270.0", "the check line lies over the"),
        ("a4-3x8", "line_top_mm = 282.4", "line_top_mm = 290.0", "the check line does not lie inside"),
        ("a4-3x8", "square_left_mm = 118.0", "square_left_mm = 100.0", "and the scale square overlap"),
        ("roll-57x40", "rows = 1", "rows = 2", "a roll has one label a page"),
        ("mat-a4", "height_mm = 255.0", "height_mm = 285.0", "the field does not lie inside"),
        ("mat-a4", "height_mm = 255.0", "height_mm = 265.0", "lies over the field"),
        ("mat-a5", "marker_mm = 15.0", "marker_mm = 60.0", "between two markers at least 20 mm"),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_named_with_its_numbers(name: str, old: str, new: str, part: str) -> None:
    found = mistakes_after(name, (old, new))
    assert any(part in mistake for mistake in found), found


def test_several_misfits_come_together() -> None:
    found = mistakes_after(
        "a4-3x8", ("columns = 3", "columns = 4"), ("rows = 8", "rows = 9"), ("lines = 2", "lines = 5")
    )
    assert len(found) >= 3
