"""Routes about label layouts: which there are, and the scale that puts a printer's sizes right."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter
from fastapi.responses import Response
from pydantic import BaseModel, ConfigDict, Field

from ..actions.paper_words import Language
from ..actions.print_labels import Wish, print_labels
from ..errors import LastboltError
from ..labels.layout import LabelTemplate, Template
from ..labels.sheet import print_scale
from ..labels.template import parse_template
from ..said import said
from .desk import AtDesk
from .forms import forms_of
from .wire import Form, Wire

router = APIRouter(prefix="/api/label-layouts", tags=["labels"])


class Layout(Wire):
    """One layout as the desk shows it; `mistakes` says why it cannot be used, empty where it can."""

    name: str
    title: str
    kind: Literal["labels", "mat", "unreadable"]
    paper_mm: tuple[float, float] | None
    columns: int
    rows: int
    places: int = Field(description="labels on one page")
    symbol_mm: float | None
    level: str | None = Field(description="how much of a symbol may be damaged: Q a quarter, H three tenths")
    check_line_mm: float | None = Field(description="length of the line to measure")
    mistakes: str


class ScaleWish(BaseModel):
    """What the check line of a print measured, and at which scale it was printed."""

    model_config = ConfigDict(extra="forbid")

    measured_mm: Annotated[float, Field(gt=0, le=1000)]
    line_mm: Annotated[float, Field(gt=0, le=1000)] = 100.0
    printed_at: Annotated[float, Field(ge=0.9, le=1.1)] = 1.0


class Scale(Wire):
    """The scale for the next print, in words too."""

    scale: float
    sentence: str
    forms: list[Form]


@router.get("", operation_id="listLabelLayouts")
def list_layouts(desk: AtDesk) -> list[Layout]:
    """Give every layout of the shop; one with mistakes is listed with them."""
    return [_layout(desk, name) for name in desk.wired.layouts.names()]


@router.post("/scale", operation_id="getPrintScale")
def get_scale(wish: ScaleWish) -> Scale:
    """Turn the measured length of the check line into the scale for the next print."""
    scale = print_scale(wish.measured_mm, line_mm=wish.line_mm, printed_at=wish.printed_at)
    off = abs(wish.measured_mm / wish.line_mm - 1)
    words = (
        said("That is within what a ruler tells; print as before.")
        if off <= 0.003
        else said(
            "The next print is made at {percent} %, so that the line measures {line} mm.",
            percent=f"{scale * 100:.1f}",
            line=f"{wish.line_mm:g}",
        )
    )
    return Scale(
        scale=1.0 if off <= 0.003 and wish.printed_at == 1.0 else scale, sentence=words, forms=forms_of(words)
    )


@router.get("/{name}/mat.pdf", operation_id="getMat", response_class=Response)
def get_mat(name: str, desk: AtDesk, scale: float = 1.0, language: Language = "en") -> Response:
    """Give a count mat as PDF; it bears no number, so it may be printed any time."""
    printed = print_labels(desk.wired.shop, Wish(layout=name, count=1, scale=scale, language=language))
    headers = {"content-disposition": 'inline; filename="mat.pdf"'}
    return Response(printed.pdf, media_type="application/pdf", headers=headers)


def _layout(desk: AtDesk, name: str) -> Layout:
    try:
        template = parse_template(desk.wired.layouts.text(name))
    except LastboltError as error:
        return Layout(
            name=name, title=name, kind="unreadable", paper_mm=None, columns=0, rows=0, places=0,
            symbol_mm=None, level=None, check_line_mm=None, mistakes=str(error),
        )  # fmt: skip
    return _shown(name, template)


def _shown(name: str, template: Template) -> Layout:
    paper = (template.paper.width_mm, template.paper.height_mm)
    check = template.check.line_mm if template.check else None
    if isinstance(template, LabelTemplate):
        grid, symbol = template.grid, template.symbol
        return Layout(
            name=name, title=template.title, kind="labels", paper_mm=paper, columns=grid.columns,
            rows=grid.rows, places=grid.cells, symbol_mm=symbol.edge_mm, level=symbol.level,
            check_line_mm=check, mistakes="",
        )  # fmt: skip
    return Layout(
        name=name, title=template.title, kind="mat", paper_mm=paper, columns=0, rows=0, places=0,
        symbol_mm=None, level=None, check_line_mm=check, mistakes="",
    )  # fmt: skip
