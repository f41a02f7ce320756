"""A sheet drawn as PDF: plain, black on white, on A4 or Letter; the same bytes every time."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from reportlab.lib import pagesizes
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, PageTemplate
from reportlab.platypus.doctemplate import BaseDocTemplate
from reportlab.platypus.frames import Frame

from ..report.sheet import Sheet
from ..said import in_words, said
from .blocks import flow
from .letters import printable

Paper = Literal["a4", "letter"]
SIZES = {"a4": pagesizes.A4, "letter": pagesizes.LETTER}
MARGIN = 14 * mm
FOOT = 9 * mm
SCALES = (1.4, 1.25, 1.12, 1.0, 0.92, 0.84, 0.77, 0.7)
"""How far letters grow to fill a page, to be read in a pit, or shrink so that one suffices.

Below 0.7 it goes on to the next page instead.
"""


@dataclass(frozen=True, slots=True)
class Print:
    """How a sheet is printed: paper, where its symbol leads, when, small pictures by hash, in which words."""

    paper: Paper
    link: str
    printed: str
    pictures: Mapping[str, bytes]
    title: str
    wanted_pages: int | None = None
    words: Mapping[str, str] = field(default_factory=dict)


def draw(sheet: Sheet, wish: Print) -> bytes:
    """Draw a sheet; with `wanted_pages` its letters are as large as fit, within what they may.

    Raises:
        BadInputError: the link does not fit into a symbol.
    """
    if wish.wanted_pages is None:
        return _drawn(sheet, wish, 1.0)[0]
    for scale in SCALES:
        pdf, pages = _drawn(sheet, wish, scale)
        if pages <= wish.wanted_pages:
            break
    return pdf


def _drawn(sheet: Sheet, wish: Print, scale: float) -> tuple[bytes, int]:
    out = io.BytesIO()
    width, height = SIZES[wish.paper]
    document = BaseDocTemplate(
        out,
        pagesize=(width, height),
        title=printable(in_words(wish.title, wish.words)),
        author="Lastbolt",
        creator="Lastbolt",
        invariant=1,
        pageCompression=1,
    )
    frame = Frame(
        MARGIN, MARGIN + FOOT, width - 2 * MARGIN, height - 2 * MARGIN - FOOT,
        leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
    )  # fmt: skip
    document.addPageTemplates(PageTemplate(frames=[frame]))
    counted = _Counted(wish)
    document.build(
        list(_story(sheet, wish, width=width - 2 * MARGIN, scale=scale)), canvasmaker=counted.canvas
    )
    return out.getvalue(), counted.pages


def _story(sheet: Sheet, wish: Print, *, width: float, scale: float) -> Iterator[Flowable]:
    yield from flow(sheet, link=wish.link, pictures=wish.pictures, width=width, scale=scale)


class _Counted:
    """Makes canvases that know at the end how many pages there are, for "page 1 of 3"."""

    def __init__(self, wish: Print) -> None:
        self.wish, self.pages = wish, 0

    def canvas(self, *words: Any, **named: Any) -> Canvas:
        """Make a canvas that keeps its pages back until it is saved."""
        counted = self
        canvas = Canvas(*words, **named)
        kept: list[dict[str, Any]] = []
        show, save = canvas.showPage, canvas.save

        def keep_page() -> None:
            kept.append(dict(canvas.__dict__))
            canvas._startPage()

        def save_all() -> None:
            counted.pages = len(kept)
            for number, state in enumerate(kept, start=1):
                canvas.__dict__.update(state)
                _foot(canvas, counted.wish, number, len(kept))
                show()
            save()

        canvas.showPage, canvas.save = keep_page, save_all
        return canvas


def _foot(canvas: Canvas, wish: Print, page: int, pages: int) -> None:
    width, _ = SIZES[wish.paper]
    canvas.saveState()
    canvas.setFont("Helvetica", 7.5)
    canvas.setFillGray(0)
    canvas.setLineWidth(0.4)
    canvas.line(MARGIN, MARGIN + FOOT - 2 * mm, width - MARGIN, MARGIN + FOOT - 2 * mm)
    canvas.drawString(MARGIN, MARGIN + 2 * mm, printable(in_words(wish.title, wish.words))[:90])
    foot = said("Printed {time}   Page {page} of {pages}", time=wish.printed, page=page, pages=pages)
    canvas.drawRightString(width - MARGIN, MARGIN + 2 * mm, printable(in_words(foot, wish.words)))
    canvas.restoreState()
