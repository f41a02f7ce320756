"""One label drawn at the origin: symbol, kind word, code in people's letters, lines to write on."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from ..label_code import Kind, LabelCode, kind_of, shown
from ..said import Said, in_words, said
from . import ink
from .layout import Box, LabelTemplate, label_parts
from .symbol import Modules, black_boxes

KIND_WORDS: dict[Kind, Said] = {
    Kind.TRAY: said("Tray"),
    Kind.BAG: said("Bag"),
    Kind.PART: said("Part"),
    Kind.OPENING: said("Opening"),
    Kind.COVER: said("Cover"),
    Kind.KIT: said("Kit"),
    Kind.WRENCH: said("Wrench"),
    Kind.PERSON: said("Person"),
    Kind.MACHINE: said("Machine"),
    Kind.JOB: said("Job"),
    Kind.PLACE: said("Shelf place"),
}

_RULE_MM = 0.2
_CUT_MM = 1.5
_CUT_WIDTH_MM = 0.1


def draw_label(canvas: Canvas, template: LabelTemplate, code: LabelCode, *, modules: Modules) -> None:
    """Draw one label with its top left at the origin."""
    parts = label_parts(template)
    ink.fill(canvas, black_boxes(modules, parts.symbol))
    canvas.setFillGray(ink.BLACK)
    ink.write(canvas, in_words(KIND_WORDS[kind_of(code)], template.own), place=parts.kind)
    ink.write(canvas, shown(code), place=parts.code, bold=True)
    canvas.setFillGray(ink.SOFT)
    small = Box(
        parts.kind.left,
        parts.kind.bottom - template.check.words_mm,
        parts.kind.width,
        template.check.words_mm,
    )
    edge = in_words(said("{edge} mm", edge=f"{template.symbol.edge_mm:.1f}"), template.own)
    ink.write(canvas, edge, place=small, side="right")
    if template.words.lines:
        pitch = parts.writing.height / template.words.lines
        tops = [parts.writing.top + pitch * line - _RULE_MM for line in range(1, template.words.lines + 1)]
        rules = [Box(parts.writing.left, top, parts.writing.width, _RULE_MM) for top in tops]
        ink.fill(canvas, rules, grey=ink.SOFT)


def draw_cut_marks(canvas: Canvas, cell: Box) -> None:
    """Draw small crosses at a cell's corners, along its edges only."""
    arm, half = _CUT_MM, _CUT_WIDTH_MM / 2
    marks = []
    for x in (cell.left, cell.right):
        for y in (cell.top, cell.bottom):
            marks.append(Box(x - arm, y - half, 2 * arm, 2 * half))
            marks.append(Box(x - half, y - arm, 2 * half, 2 * arm))
    ink.fill(canvas, marks, grey=ink.FAINT)
