"""Where everything stands on a label sheet, a roll or a mat, in millimetres from the top left; no drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from dataclasses import field as made
from typing import Literal

from ..said import in_words, said
from . import lettering

QUIET_MODULES = 4
"""Blank modules that a QR symbol needs on each side (ISO/IEC 18004)."""

SMALLEST_SIDE_MODULES = 21
"""Side of QR version 1; at a fixed edge its modules, and so its quiet zone, are the largest."""

TICK_MM = 1.6
_GAP = 0.6
_CLEAR_MM = 0.4  # letters reach a little out of their box
_TITLE_GROWTH = 1.5


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle; `top` counts downwards."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.width

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top + self.height


@dataclass(frozen=True, slots=True)
class Paper:
    """One page; `margin_mm` is the rim that a printer cannot reach."""

    width_mm: float
    height_mm: float
    margin_mm: float


@dataclass(frozen=True, slots=True)
class Grid:
    """The cells for labels on one page; `turned` stands their content on its left side."""

    columns: int
    rows: int
    left_mm: float
    top_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    label_width_mm: float
    label_height_mm: float
    start: int
    turned: bool
    cut_marks: bool

    @property
    def cells(self) -> int:
        """How many labels one page holds."""
        return self.columns * self.rows

    def cell(self, index: int) -> Box:
        """Give cell `index` of the page, counted from 0 row by row."""
        row, column = divmod(index, self.columns)
        left = self.left_mm + column * self.pitch_x_mm
        top = self.top_mm + row * self.pitch_y_mm
        return Box(left, top, self.label_width_mm, self.label_height_mm)


@dataclass(frozen=True, slots=True)
class Symbol:
    """The printed code: its edge without the quiet zone, and its error correction level."""

    edge_mm: float
    level: Literal["Q", "H"]

    @property
    def quiet_mm(self) -> float:
        """The blank rim that fits every version of this edge."""
        return self.edge_mm * QUIET_MODULES / SMALLEST_SIDE_MODULES


@dataclass(frozen=True, slots=True)
class Words:
    """The text of a label: beside or below the symbol, with lines to write on; sizes are capital heights."""

    place: Literal["beside", "below"]
    code_mm: float
    kind_mm: float
    lines: int
    pad_mm: float
    foot_mm: float


@dataclass(frozen=True, slots=True)
class ScaleCheck:
    """What proves the printed size: a line, on sheets and mats a black square and a title too."""

    line_mm: float
    line_left_mm: float
    line_top_mm: float
    words_mm: float
    square_mm: float = 0.0
    square_left_mm: float = 0.0
    square_top_mm: float = 0.0
    title_left_mm: float = 0.0
    title_top_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class LabelTemplate:
    """A layout for labels, on sheets of many or on a roll of one after the other.

    `own` gives the words of another language by the English ones.
    """

    kind: Literal["sheet", "roll"]
    title: str
    paper: Paper
    grid: Grid
    symbol: Symbol
    words: Words
    check: ScaleCheck
    own: Mapping[str, str] = made(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MatTemplate:
    """A count mat: a plain field whose corners are the outer corners of four printed markers.

    `own` gives the words of another language by the English ones.
    """

    title: str
    paper: Paper
    field: Box
    marker_mm: float
    check: ScaleCheck
    own: Mapping[str, str] = made(default_factory=dict)


Template = LabelTemplate | MatTemplate


@dataclass(frozen=True, slots=True)
class LabelParts:
    """The places on one label, in its own upright frame."""

    symbol: Box
    kind: Box
    code: Box
    writing: Box


def label_parts(template: LabelTemplate) -> LabelParts:
    """Place symbol, kind word, code and writing lines on a label, measured from the label's own top left."""
    symbol, words, grid = template.symbol, template.words, template.grid
    width, height = grid.label_width_mm, grid.label_height_mm
    if grid.turned:
        width, height = height, width
    blank = symbol.edge_mm + 2 * symbol.quiet_mm
    beyond = blank + _CLEAR_MM
    if words.place == "beside":
        mark = Box(symbol.quiet_mm, (height - symbol.edge_mm) / 2, symbol.edge_mm, symbol.edge_mm)
        text = Box(beyond, words.foot_mm, width - beyond - words.pad_mm, height - 2 * words.foot_mm)
    else:
        mark = Box(symbol.quiet_mm, symbol.quiet_mm, symbol.edge_mm, symbol.edge_mm)
        text = Box(words.pad_mm, beyond, blank - 2 * words.pad_mm, height - beyond - words.foot_mm)
    gap = words.kind_mm * _GAP
    code_top = text.top + words.kind_mm + gap
    writing_top = code_top + words.code_mm + gap
    return LabelParts(
        symbol=mark,
        kind=Box(text.left, text.top, text.width, words.kind_mm),
        code=Box(text.left, code_top, text.width, words.code_mm),
        writing=Box(text.left, writing_top, text.width, text.bottom - writing_top),
    )


def on_paper(box: Box, cell: Box, *, turned: bool) -> Box:
    """Carry a box from a label's own frame to the page.

    A turned label stands on its left side: what is up on the label points left on the page.
    """
    if not turned:
        return Box(cell.left + box.left, cell.top + box.top, box.width, box.height)
    return Box(cell.left + box.top, cell.bottom - box.right, box.height, box.width)


def check_words(template: Template) -> tuple[str, ...]:
    """Give the sentences under the check line."""
    line = f"{template.check.line_mm:g}"
    sentences = [said("This line: {line} mm. Print at 100 %, not fit to page.", line=line)]
    if template.check.square_mm:
        sentences.append(said("Measures otherwise? Print again and enter what you measured."))
    return tuple(in_words(sentence, template.own) for sentence in sentences)


def check_boxes(template: Template) -> dict[str, Box]:
    """Give the places of the check line with its words, the scale square and the title, as they are drawn."""
    check = template.check
    lines = check_words(template)
    widest = max(lettering.width_mm(line, check.words_mm) for line in lines)
    words_height = len(lines) * check.words_mm * lettering.LINE
    boxes = {
        "check line": Box(
            check.line_left_mm,
            check.line_top_mm,
            max(check.line_mm, widest),
            TICK_MM + words_height,
        )
    }
    if check.square_mm:
        boxes["scale square"] = Box(
            check.square_left_mm, check.square_top_mm, check.square_mm, check.square_mm
        )
        boxes["title"] = title_box(template)
    return boxes


def title_box(template: Template) -> Box:
    """Give the place of the title and of the note below it."""
    check = template.check
    cap = check.words_mm * _TITLE_GROWTH
    width = max(
        lettering.width_mm(template.title, cap, bold=True),
        lettering.width_mm(note(template), check.words_mm),
    )
    return Box(check.title_left_mm, check.title_top_mm, width, cap + check.words_mm * lettering.LINE)


def title_mm(check: ScaleCheck) -> float:
    """Give the capital height of the title."""
    return check.words_mm * _TITLE_GROWTH


def note(template: Template) -> str:
    """Give the line below the title."""
    if isinstance(template, MatTemplate):
        words = said("Parts apart, inside the four marks; all four in the picture.")
    else:
        words = said(
            "Symbol edge {edge} mm, square {square} mm",
            edge=f"{template.symbol.edge_mm:.1f}",
            square=f"{template.check.square_mm:g}",
        )
    return in_words(words, template.own)
