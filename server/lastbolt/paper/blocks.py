"""The blocks of a sheet as what flows down a page: headings, lines, boxes to tick, tables, pictures."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from typing import Any

from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.platypus import CondPageBreak, Flowable, Image, Paragraph, Spacer
from reportlab.platypus import Table as Grid
from reportlab.platypus.tables import TableStyle

from ..report.sheet import Block, Entry, Picture, Sheet, Table
from .letters import markup
from .marks import Symbol, TickBox

SYMBOL_MM = 24.0
PICTURE_MM = 42.0
ACROSS = 4
ROOM_MM = 22.0
"""A heading with less room below it than this goes to the next page."""
GREY = 0.9


def flow(
    sheet: Sheet, *, link: str, pictures: Mapping[str, bytes], width: float, scale: float
) -> Iterator[Flowable]:
    """Give everything that stands on a sheet, in order; `scale` makes letters smaller."""
    yield _head(sheet, link=link, width=width, scale=scale)
    for block in sheet.blocks:
        yield from _block(block, pictures=pictures, width=width, scale=scale)
    yield Spacer(1, 2 * mm)
    for line in sheet.foot:
        yield Paragraph(markup(line), _style(7.5, scale))


def _style(size: float, scale: float, *, bold: bool = False) -> ParagraphStyle:
    return ParagraphStyle(
        f"{size}{bold}",
        fontName="Helvetica-Bold" if bold else "Helvetica",
        fontSize=size * scale,
        leading=size * scale * 1.22,
        alignment=TA_LEFT,
        splitLongWords=1,
    )


def _head(sheet: Sheet, *, link: str, width: float, scale: float) -> Flowable:
    words = [Paragraph(markup(sheet.heading), _style(15, scale, bold=True)), Spacer(1, 1 * mm)]
    words += [Paragraph(markup(line), _style(10, scale)) for line in sheet.under]
    side = SYMBOL_MM * mm
    grid = Grid([[words, Symbol(link, SYMBOL_MM)]], colWidths=[width - side, side])
    grid.setStyle(
        TableStyle([*_PLAIN, ("VALIGN", (0, 0), (-1, -1), "TOP"), ("ALIGN", (1, 0), (1, 0), "RIGHT")])
    )
    return grid


_PLAIN: list[tuple[Any, ...]] = [
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
    ("TOPPADDING", (0, 0), (-1, -1), 0),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
]


def _block(block: Block, *, pictures: Mapping[str, bytes], width: float, scale: float) -> Iterator[Flowable]:
    title = Grid(
        [[Paragraph(f"{block.number}. {markup(block.title)}", _style(10, scale, bold=True))]], [width]
    )
    ground = ("LINEBELOW", (0, 0), (-1, -1), 0.8, (0, 0, 0))
    title.setStyle(TableStyle([*_PLAIN, ground, ("TOPPADDING", (0, 0), (-1, -1), 3 * scale)]))
    body: list[Flowable] = []
    if block.is_empty:
        body.append(Paragraph(markup(block.nothing), _style(9, scale)))
    body += [_line(line, grave=block.is_grave, width=width, scale=scale) for line in block.lines]
    body += [part for table in block.tables for part in (Spacer(1, 1 * mm), _table(table, width, scale))]
    shown = [picture for picture in block.pictures if picture.sha256 in pictures]
    if shown:
        body += [Spacer(1, 1.5 * mm), _pictures(shown, pictures, width=width, scale=scale)]
    yield CondPageBreak(ROOM_MM * mm)
    yield from (title, Spacer(1, 1.2 * scale), *body)


def _line(line: Entry, *, grave: bool, width: float, scale: float) -> Flowable:
    words = Paragraph(markup(line.text), _style(9, scale, bold=grave))
    if line.ticked is None:
        return words
    side = 3.2 * mm * scale
    grid = Grid(
        [[TickBox(side, ticked=line.ticked), words]], colWidths=[side + 2 * mm, width - side - 2 * mm]
    )
    style = [*_PLAIN, ("VALIGN", (0, 0), (-1, -1), "TOP"), ("TOPPADDING", (0, 0), (-1, -1), 1.2 * scale)]
    grid.setStyle(TableStyle(style))
    return grid


def _table(table: Table, width: float, scale: float) -> Flowable:
    whole = sum(table.widths)
    small, bold = _style(7.2, scale), _style(7.2, scale, bold=True)
    rows: list[list[Any]] = [[Paragraph(markup(cell), small) for cell in row] for row in table.rows]
    has_heads = any(table.heads)
    if has_heads:
        rows.insert(0, [Paragraph(markup(head), bold) for head in table.heads])
    grid = Grid(rows, colWidths=[width * share / whole for share in table.widths], repeatRows=int(has_heads))
    style: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 2),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
        ("LINEBELOW", (0, 0), (-1, -1), 0.25, (0.55, 0.55, 0.55)),
    ]
    if has_heads:
        style.append(("BACKGROUND", (0, 0), (-1, 0), (GREY, GREY, GREY)))
    grid.setStyle(TableStyle(style))
    return grid


def _pictures(shown: list[Picture], pictures: Mapping[str, bytes], *, width: float, scale: float) -> Flowable:
    cells = [
        _picture(one, pictures[one.sha256], side=min(PICTURE_MM * mm, width / ACROSS - 2 * mm), scale=scale)
        for one in shown
    ]
    rows: list[list[Any]] = [cells[start : start + ACROSS] for start in range(0, len(cells), ACROSS)]
    rows[-1] = [*rows[-1], *[""] * (ACROSS - len(rows[-1]))]
    grid = Grid(rows, colWidths=[width / ACROSS] * ACROSS)
    grid.setStyle(
        TableStyle([*_PLAIN, ("VALIGN", (0, 0), (-1, -1), "TOP"), ("BOTTOMPADDING", (0, 0), (-1, -1), 3)])
    )
    return grid


def _picture(one: Picture, jpeg: bytes, *, side: float, scale: float) -> list[Flowable]:
    across, down = ImageReader(io.BytesIO(jpeg)).getSize()
    share = side / max(across, down)
    image = Image(io.BytesIO(jpeg), width=across * share, height=down * share)
    image.hAlign = "LEFT"
    caption = f"{markup(one.caption)} <font size='{5.5 * scale:.1f}'>{one.sha256[:12]}</font>"
    return [image, Paragraph(caption, _style(6.5, scale))]
