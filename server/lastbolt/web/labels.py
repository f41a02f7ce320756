"""Routes about labels: what a code is bound to, and where a phone's camera lands with it."""

from __future__ import annotations

from urllib.parse import quote

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse

from . import wire
from .desk import AtDesk

router = APIRouter(tags=["labels"])


@router.get("/api/labels/{code}", operation_id="getLabel")
def get_label(code: str, desk: AtDesk) -> wire.Label:
    """Say what a label is bound to; a code that was never seen gets its sentence too."""
    return desk.label(code)


@router.get("/L/{code}", include_in_schema=False)
@router.get("/l/{code}", include_in_schema=False)
def open_label(code: str, desk: AtDesk, request: Request) -> RedirectResponse:
    """Send a phone that opened a label's address to the page of what bears it, a stranger to signing in."""
    visit = request.state.visit
    if visit is None or visit.current is None:
        return RedirectResponse(f"/labels/{quote(code, safe='')}", 303)
    label = desk.label(code)
    if label.job is not None and label.container is not None:
        return RedirectResponse(
            f"/jobs/{quote(label.job, safe='')}/containers/{quote(label.container, safe='')}", 303
        )
    return RedirectResponse(f"/labels/{quote(label.code, safe='')}", 303)
