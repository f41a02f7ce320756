"""Pages of labels and count mats as PDF bytes: codes and a template in, the same bytes out every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from reportlab.pdfgen.canvas import Canvas

from ..errors import BadInputError
from ..label_code import LabelCode, payload
from ..said import said
from . import ink
from .geometry import ink_boxes
from .label import draw_cut_marks, draw_label
from .layout import (
    TICK_MM,
    Box,
    LabelTemplate,
    MatTemplate,
    Template,
    check_boxes,
    check_words,
    note,
    title_mm,
)
from .lettering import LINE
from .symbol import SMALLEST_MODULE_MM, Modules, black_boxes, marker_modules, qr_modules

MOST_LABELS = 2_000
SCALE_FROM, SCALE_TO = 0.9, 1.1

_LINE_MM = 0.3
_TICK_WIDTH_MM = 0.15
_TICK_EVERY_MM = 10.0


@dataclass(frozen=True, slots=True)
class Place:
    """Where one label goes: its page from 0 and its cell on the page."""

    page: int
    cell: Box


def places(template: LabelTemplate, count: int, *, start: int | None = None) -> list[Place]:
    """Place `count` labels; `start` is the first free cell of the first page, from 1 (else the layout's own).

    Raises:
        BadInputError: nothing to print, too much, or no such start position.
    """
    cells, first = template.grid.cells, template.grid.start if start is None else start
    if not 1 <= count <= MOST_LABELS:
        raise BadInputError(
            said(
                "{count} labels cannot be printed at once; ask for 1 to {most}", count=count, most=MOST_LABELS
            )
        )
    if not 1 <= first <= cells:
        raise BadInputError(
            said(
                "there is no position {first} on this page; it has positions 1 to {cells}",
                first=first,
                cells=cells,
            )
        )
    numbers = range(first - 1, first - 1 + count)
    return [Place(number // cells, template.grid.cell(number % cells)) for number in numbers]


def print_scale(measured_mm: float, *, line_mm: float = 100.0, printed_at: float = 1.0) -> float:
    """Turn the length of a printed check line into the scale for the next print.

    >>> print_scale(98.0)
    1.0204081632653061

    Raises:
        BadInputError: so far off that it is a slip of the ruler, or "fit to page" was on.
    """
    if not measured_mm > 0 or not SCALE_FROM <= printed_at * line_mm / measured_mm <= SCALE_TO:
        raise BadInputError(
            said(
                "a check line of {measured_mm} mm where {line_mm} mm were printed cannot be put "
                "right; measure it again in millimetres, and print at 100 %, not fit to page",
                measured_mm=f"{measured_mm:g}",
                line_mm=f"{line_mm:g}",
            )
        )
    return printed_at * line_mm / measured_mm


def draw_sheet(
    template: LabelTemplate,
    codes: Sequence[LabelCode],
    *,
    address: str | None = None,
    start: int | None = None,
    scale: float = 1.0,
) -> bytes:
    """Print labels as PDF: on as many pages as they need, the first begun at cell `start`.

    Args:
        template: the layout; its symbols keep their edge whatever the address is.
        codes: one label each, in order; the same code twice gives two equal labels.
        address: the shop's server, like http://192.168.1.20:8000, when scanning shall open a page there.
        start: first free cell of the first page, from 1.
        scale: put right what the printer gets wrong, from `print_scale`.

    Raises:
        BadInputError: no such start, too many labels, an address too long, a scale that leaves the paper.
    """
    placed = places(template, len(codes), start=start)
    _look_at_scale(template, scale)
    drawn = {code: _modules(template, payload(code, address=address)) for code in codes}
    canvas = ink.open_canvas(template.paper, template.title)
    for _, labels in groupby(zip(placed, codes, strict=True), key=lambda pair: pair[0].page):
        ink.frame_page(canvas, template.paper, scale)
        _draw_check(canvas, template)
        for place, code in labels:
            _draw_cell(canvas, template, place.cell, code=code, modules=drawn[code])
        canvas.showPage()
    return bytes(canvas.getpdfdata())


def draw_mat(template: MatTemplate, *, scale: float = 1.0) -> bytes:
    """Print a count mat as PDF: a plain field, four corner markers, and what proves its size.

    Raises:
        BadInputError: a scale that leaves the paper.
    """
    _look_at_scale(template, scale)
    canvas = ink.open_canvas(template.paper, template.title)
    ink.frame_page(canvas, template.paper, scale)
    field, side = template.field, template.marker_mm
    right, low = field.right - side, field.bottom - side
    corners = ((field.left, field.top), (right, field.top), (right, low), (field.left, low))
    for number, (left, top) in enumerate(corners):
        ink.fill(canvas, black_boxes(marker_modules(number), Box(left, top, side, side)))
    _draw_check(canvas, template)
    canvas.showPage()
    return bytes(canvas.getpdfdata())


def _modules(template: LabelTemplate, text: str) -> Modules:
    modules = qr_modules(text, template.symbol.level)
    size = template.symbol.edge_mm / len(modules)
    if size < SMALLEST_MODULE_MM:
        raise BadInputError(
            said(
                "the text {text} would make the symbol's modules {size} mm small, under {least} mm; "
                "use a shorter address or a layout with a larger symbol",
                text=repr(text[:60]),
                size=f"{size:.2f}",
                least=SMALLEST_MODULE_MM,
            )
        )
    return modules


def _look_at_scale(template: Template, scale: float) -> None:
    if not SCALE_FROM <= scale <= SCALE_TO:
        raise BadInputError(
            said(
                "a print scale of {scale} is out of range; it runs from {least} to {most}",
                scale=f"{scale:g}",
                least=SCALE_FROM,
                most=SCALE_TO,
            )
        )
    paper = template.paper
    middle, centre = paper.height_mm / 2, paper.width_mm / 2
    boxes = ink_boxes(template).values()
    reach = max(
        max(max(centre - box.left, box.right - centre) / centre for box in boxes),
        max(max(middle - box.top, box.bottom - middle) / middle for box in boxes),
    )
    if scale * reach > 1:
        raise BadInputError(
            said(
                "at a print scale of {scale} this layout leaves the paper (the most is {most}); "
                "switch off 'fit to page' in the printer's window, print again and measure again",
                scale=f"{scale:.3f}",
                most=f"{1 / reach:.3f}",
            )
        )


def _draw_cell(
    canvas: Canvas, template: LabelTemplate, cell: Box, *, code: LabelCode, modules: Modules
) -> None:
    if template.grid.cut_marks:
        draw_cut_marks(canvas, cell)
    canvas.saveState()
    if template.grid.turned:
        canvas.translate(cell.left, cell.bottom)
        canvas.rotate(-90)
    else:
        canvas.translate(cell.left, cell.top)
    draw_label(canvas, template, code, modules=modules)
    canvas.restoreState()


def _draw_check(canvas: Canvas, template: Template) -> None:
    check, boxes = template.check, check_boxes(template)
    line = boxes["check line"]
    floor = line.top + TICK_MM
    ticks = int(check.line_mm // _TICK_EVERY_MM)
    marks = [Box(line.left, floor - _LINE_MM, check.line_mm, _LINE_MM)]
    for tick in range(ticks + 1):
        left = min(line.left + tick * _TICK_EVERY_MM, line.left + check.line_mm - _TICK_WIDTH_MM)
        high = TICK_MM if tick in (0, ticks / 2, ticks) else TICK_MM * 0.6
        marks.append(Box(left, floor - high, _TICK_WIDTH_MM, high))
    ink.fill(canvas, marks)
    words, step = check.words_mm, check.words_mm * LINE
    for row, sentence in enumerate(check_words(template)):
        top = floor + words * (LINE - 1) + row * step
        ink.write(canvas, sentence, place=Box(line.left, top, line.width, words))
    if "title" not in boxes:
        return
    ink.fill(canvas, [boxes["scale square"]])
    title = boxes["title"]
    ink.write(
        canvas, template.title, place=Box(title.left, title.top, title.width, title_mm(check)), bold=True
    )
    below = Box(title.left, title.bottom - words, title.width, words)
    ink.write(canvas, note(template), place=below)
