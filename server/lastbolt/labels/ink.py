"""The few marks that are put on a PDF page, in millimetres from the top left; never what they mean."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from . import lettering
from .layout import Box, Paper

BLACK = 0.0
SOFT = 0.35
FAINT = 0.6


def open_canvas(paper: Paper, title: str) -> Canvas:
    """Start a PDF whose bytes depend on its content alone, and that asks viewers not to rescale it."""
    size = (paper.width_mm * mm, paper.height_mm * mm)
    canvas = Canvas("", pagesize=size, invariant=1, pageCompression=1)
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setTitle(title)
    canvas.setAuthor("Lastbolt")
    canvas.setCreator("Lastbolt")
    return canvas


def frame_page(canvas: Canvas, paper: Paper, scale: float) -> None:
    """Make the unit a millimetre and the origin the top left; `scale` widens all about the page's middle."""
    canvas.scale(mm, mm)
    canvas.translate(paper.width_mm / 2, paper.height_mm / 2)
    canvas.scale(scale, -scale)
    canvas.translate(-paper.width_mm / 2, -paper.height_mm / 2)


def fill(canvas: Canvas, boxes: Iterable[Box], *, grey: float = BLACK) -> None:
    """Fill rectangles as one path, without a stroke: their edges are exactly where they should be."""
    path = canvas.beginPath()
    for box in boxes:
        path.rect(box.left, box.top, box.width, box.height)
    canvas.setFillGray(grey)
    canvas.drawPath(path, fill=1, stroke=0)


def write(
    canvas: Canvas,
    text: str,
    *,
    place: Box,
    bold: bool = False,
    side: Literal["left", "right"] = "left",
) -> None:
    """Write one line whose digits fill the height of `place`, squeezed or smaller where it is too wide."""
    face = lettering.BOLD if bold else lettering.PLAIN
    height, squeeze = place.height, min(1.0, place.width / lettering.width_mm(text, place.height, bold=bold))
    if squeeze < lettering.TIGHTEST:
        height, squeeze = height * squeeze / lettering.TIGHTEST, lettering.TIGHTEST
    run = lettering.width_mm(text, height, bold=bold) * squeeze
    canvas.saveState()
    canvas.translate(place.right - run if side == "right" else place.left, place.bottom)
    canvas.scale(squeeze, -1)
    canvas.setFont(face, lettering.font_size_mm(height))
    canvas.drawString(0, 0, text)
    canvas.restoreState()
