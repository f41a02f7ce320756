"""Layout files read, and all their mistakes named at once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import TemplateError
from lastbolt.labels.layout import MatTemplate
from lastbolt.labels.template import parse_template

from .layouts import FOLDER, MATS, SHEETS, label_layout, layout_text, mat_layout


def mistakes_in(text: str) -> list[str]:
    with pytest.raises(TemplateError) as caught:
        parse_template(text)
    return caught.value.mistakes


def test_every_layout_in_the_folder_is_read_and_known_to_these_tests() -> None:
    names = {path.stem for path in FOLDER.glob("*.toml")}
    assert names == {*SHEETS, *MATS}
    for name in names:
        assert isinstance(parse_template(layout_text(name)), MatTemplate) == (name in MATS)


def test_the_sheet_of_24_has_symbols_of_25_mm_and_letters_of_8_mm() -> None:
    template = label_layout("a4-3x8")
    assert template.grid.cells == 24
    assert template.symbol.edge_mm == 25.0
    assert template.words.code_mm >= 8.0
    assert template.words.lines >= 1
    assert template.check.line_mm == 100.0


@pytest.mark.parametrize("name", MATS)
def test_mats_have_markers_of_15_mm_and_a_line_of_100_mm(name: str) -> None:
    template = mat_layout(name)
    assert (template.marker_mm, template.check.line_mm) == (15.0, 100.0)


def test_defaults_fill_in_what_a_layout_leaves_out() -> None:
    text = layout_text("a4-3x8").replace("edge_mm = 25.0\n", "").replace('level = "H"\n', "")
    assert parse_template(text) == label_layout("a4-3x8")


def test_all_mistakes_come_at_once() -> None:
    text = (
        layout_text("a4-3x8")
        .replace("columns = 3", 'columns = "three"')
        .replace("rows = 8", "rows = 8.5")
        .replace("edge_mm = 25.0", "edge_mm = nan")
        .replace('level = "H"', 'level = "L"')
        .replace("width_mm = 210.0\n", "colour = 1\n", 1)
        .replace("code_mm", "codes_mm")
        + "\n[extra]\nx = 1\n"
    )
    found = mistakes_in(text)
    for part in (
        "extra is not known",
        "[paper] width_mm is missing (width of the page as it is fed)",
        "[paper] colour is not known",
        "[grid] columns must be a whole number from 1 to 20, not 'three'",
        "[grid] rows must be a whole number",
        "[symbol] edge_mm must be a number from 10 to 120, not nan",
        "[symbol] level must be Q or H, not 'L'",
        "[text] codes_mm is not known; did you mean code_mm?",
    ):
        assert any(part in mistake for mistake in found), part
    assert len(found) == 8


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "kind must be sheet, roll or mat"),
        ("kind = 'sheet", "this is not TOML"),
        ("kind = ['sheet']\ntitle = 'x'", "kind must be sheet, roll or mat"),
        ("kind = 'mat'\ntitle = ''", "title must be one line"),
        ("kind = 'mat'\ntitle = \"a\\nb\"", "title must be one line"),
        ("kind = 'mat'\ntitle = 'x'\npaper = 3", "[paper] must be a section"),
        ("kind = 'mat'\ntitle = 'x'\npaper = {width_mm = 1" + "0" * 400 + "}", "width_mm must be a number"),
        ("a = 1" + "0" * 5000, "this is not TOML"),
        ("kind = 'mat'\ntitle = 'x'\n\"a\\nb\" = 1", "'a\\nb' is not known"),
        ("x" * 70_000, "at most 64000 characters"),
        ("a = " + "[" * 20_000, "this is not TOML"),
    ],
)
def test_what_is_no_layout_gets_a_plain_answer(text: str, part: str) -> None:
    assert any(part in mistake for mistake in mistakes_in(text))


def test_true_is_no_number() -> None:
    assert any(
        "columns must be" in m
        for m in mistakes_in(layout_text("a4-3x8").replace("columns = 3", "columns = true"))
    )


_values = st.one_of(st.integers(-5, 700), st.floats(-10, 700), st.booleans(), st.text(max_size=5).map(repr))


@given(st.sampled_from(SHEETS + MATS), st.integers(0, 60), _values)
def test_any_changed_line_gives_a_template_or_mistakes(name: str, number: int, value: object) -> None:
    lines = layout_text(name).splitlines()
    key = lines[number % len(lines)].split(" = ")[0]
    lines[number % len(lines)] = f"{key} = {str(value).lower()}"
    try:
        parse_template("\n".join(lines))
    except TemplateError as error:
        assert error.mistakes
        assert all(mistake.strip() and "\n" not in mistake for mistake in error.mistakes)


@given(st.text(max_size=200))
def test_any_text_is_answered_with_mistakes(text: str) -> None:
    assert mistakes_in(text)
