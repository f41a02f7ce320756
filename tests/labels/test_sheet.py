"""Sheets and mats as PDF bytes."""

import subprocess
from dataclasses import replace

import pytest

from lastbolt.actions.paper_words import words_of
from lastbolt.errors import BadInputError
from lastbolt.label_code import Kind, make
from lastbolt.labels.label import KIND_WORDS
from lastbolt.labels.layout import LabelTemplate, MatTemplate
from lastbolt.labels.sheet import MOST_LABELS, draw_mat, draw_sheet, places, print_scale

from .layouts import MATS, SHEETS, label_layout, mat_layout

CODES = [make("B", number) for number in range(1, 25)]


@pytest.mark.parametrize("name", SHEETS)
def test_the_same_codes_give_the_same_bytes(name: str) -> None:
    template = label_layout(name)
    first = draw_sheet(template, CODES[:3])
    assert first.startswith(b"%PDF-")
    assert draw_sheet(template, CODES[:3]) == first
    assert draw_sheet(template, CODES[1:4]) != first


@pytest.mark.parametrize("name", MATS)
def test_a_mat_gives_the_same_bytes_and_asks_not_to_be_rescaled(name: str) -> None:
    page = draw_mat(mat_layout(name))
    assert draw_mat(mat_layout(name)) == page
    assert b"/PrintScaling /None" in page


def test_a_sheet_asks_not_to_be_rescaled_and_has_the_size_of_its_paper() -> None:
    page = draw_sheet(label_layout("a4-3x8"), CODES)
    assert b"/PrintScaling /None" in page
    assert b"/MediaBox [ 0 0 595.2756 841.8898 ]" in page  # A4, reference/values.md 9.5: 595.276 x 841.890 pt


def test_labels_go_on_from_the_start_position_over_to_the_next_page() -> None:
    template = label_layout("a4-3x8")
    found = places(template, 24, start=23)
    assert [place.page for place in found[:3]] == [0, 0, 1]
    assert found[0].cell == template.grid.cell(22)
    assert found[2].cell == template.grid.cell(0)
    assert found[-1].cell == template.grid.cell(21)


def test_a_roll_prints_one_label_a_page() -> None:
    assert [place.page for place in places(label_layout("roll-57x40"), 3)] == [0, 1, 2]


@pytest.mark.parametrize("start", [0, 25, -1])
def test_a_start_that_is_not_on_the_page_is_refused(start: int) -> None:
    with pytest.raises(BadInputError, match="positions 1 to 24"):
        draw_sheet(label_layout("a4-3x8"), CODES, start=start)


@pytest.mark.parametrize("count", [0, MOST_LABELS + 1])
def test_no_labels_or_too_many_are_refused(count: int) -> None:
    with pytest.raises(BadInputError, match="cannot be printed at once"):
        places(label_layout("a4-3x8"), count)


def test_an_address_that_makes_the_modules_too_small_is_refused() -> None:
    with pytest.raises(BadInputError, match=r"under 0\.5 mm; use a shorter address"):
        draw_sheet(label_layout("a4-3x8"), CODES, address="http://" + "a" * 130 + ".example:8000")


@pytest.mark.parametrize("scale", [0.5, 1.2, float("nan"), float("inf")])
def test_a_scale_out_of_range_is_refused(scale: float) -> None:
    with pytest.raises(BadInputError, match="out of range"):
        draw_mat(mat_layout("mat-a4"), scale=scale)


def test_a_scale_that_pushes_print_off_the_paper_is_refused_with_the_most() -> None:
    with pytest.raises(BadInputError, match=r"leaves the paper \(the most is 1\.0"):
        draw_sheet(label_layout("a4-3x8"), CODES, scale=1.09)


@pytest.mark.parametrize(
    ("measured", "printed_at", "scale"),
    [(100.0, 1.0, 1.0), (98.0, 1.0, 100 / 98), (101.0, 1.02, 1.02 / 1.01)],
)
def test_the_measured_line_gives_the_next_scale(measured: float, printed_at: float, scale: float) -> None:
    assert print_scale(measured, printed_at=printed_at) == pytest.approx(scale)


@pytest.mark.parametrize("measured", [0.0, -5.0, 10.0, 50.0, 1000.0, float("nan")])
def test_a_line_that_cannot_be_is_sent_back_to_the_ruler(measured: float) -> None:
    with pytest.raises(BadInputError, match="measure it again"):
        print_scale(measured)


def test_every_kind_has_its_word() -> None:
    assert set(KIND_WORDS) == set(Kind)
    assert len(set(KIND_WORDS.values())) == len(Kind)


def text_of(page: bytes) -> str:
    done = subprocess.run(["pdftotext", "-layout", "-", "-"], input=page, capture_output=True, check=True)
    return done.stdout.decode()


@pytest.mark.parametrize("name", [*SHEETS, *MATS])
def test_labels_and_mats_speak_another_language_within_the_same_paper(name: str) -> None:
    """Longer words are squeezed or written smaller; symbols and codes are the same."""
    layout = replace(mat_layout(name) if name in MATS else label_layout(name), own=words_of("de"))
    page = draw_mat(layout) if isinstance(layout, MatTemplate) else draw_sheet(layout, CODES[:2])
    said = text_of(page)
    assert ("Diese Linie: " in said or "Roll" in layout.title) and "This line" not in said
    if isinstance(layout, LabelTemplate):
        assert "Beutel" in said and "Bag" not in said and "B-0001-G" in said


@pytest.mark.parametrize("kind", Kind)
def test_each_kind_of_label_has_its_word_in_german(kind: Kind) -> None:
    layout = replace(label_layout("a4-3x8"), own=words_of("de"))
    assert words_of("de")[KIND_WORDS[kind]] in text_of(draw_sheet(layout, [make(kind, 1)]))
