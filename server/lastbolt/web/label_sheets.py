"""Routes that print labels or give out numbers for them; no number is given out twice."""

from __future__ import annotations

from fastapi import APIRouter
from fastapi.responses import Response

from ..actions.print_labels import Wish, print_labels
from ..label_code import Kind, make, shown
from . import hand_wire as hand
from .desk import AtDesk
from .door import AtDoor
from .taking_in import named_here

router = APIRouter(prefix="/api/labels", tags=["labels"])


@router.post("/sheets", operation_id="printLabels", response_class=Response)
def print_sheet(wish: hand.SheetWish, desk: AtDesk, visit: AtDoor) -> Response:
    """Give a PDF of labels that were never printed before; `x-labels` says in words which."""
    asked = Wish(
        layout=wish.layout,
        count=wish.count,
        kind=Kind(wish.kind),
        start=wish.start,
        address=desk.wired.settings.address,
        scale=wish.scale,
        language=wish.language,
    )
    printed = print_labels(desk.wired.shop, asked, job=wish.job, by=named_here(visit, wish.by))
    headers = {
        "content-disposition": 'attachment; filename="labels.pdf"',
        "x-labels": printed.words().rstrip(","),
    }
    return Response(printed.pdf, media_type="application/pdf", headers=headers)


@router.post("/numbers", operation_id="takeNumbers")
def take_numbers(wish: hand.NumbersWish, desk: AtDesk) -> hand.Numbers:
    """Give numbers to write by hand on bags or trays, check character and all."""
    numbers = desk.wired.counters.take(wish.kind, wish.count)
    return hand.Numbers(codes=[shown(make(wish.kind, number)) for number in numbers])
