"""Routes of the lead's review: findings with photo pairs, trays, the end of a review, the machine's map."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from . import lead_answers, lead_wire, review_answers, review_map, review_wire
from .desk import AtDesk

router = APIRouter(prefix="/api/jobs", tags=["review"])


@router.get("/{job:path}/desk-list", operation_id="getDeskList")
def get_desk_list(job: str, desk: AtDesk) -> lead_wire.DeskList:
    """Give what the lead goes through before a release: findings worst first, pairs by risk."""
    return lead_answers.desk_list(desk.read(job))


@router.get("/{job:path}/trays", operation_id="listTrays")
def list_trays(job: str, desk: AtDesk) -> list[lead_wire.Tray]:
    """Give the bags and trays with what lies in each, who counted, and the last photo."""
    return lead_answers.trays(desk.read(job))


@router.get("/{job:path}/review", operation_id="getReviewEnd")
def get_review(job: str, desk: AtDesk) -> review_wire.ReviewEnd:
    """Give coverage, decisions, what was not checked, and the question that the lead is asked."""
    return review_answers.review_end(desk.job(job)[0])


@router.get("/{job:path}/access", operation_id="getAccess")
def get_access(job: str, desk: AtDesk) -> review_wire.AccessGraph:
    """Give what lies over what on the machine, and how each thing stands."""
    return review_map.access_graph(desk.read(job).state)


@router.get("/{job:path}/undo", operation_id="getUndo")
def get_undo(
    job: str, desk: AtDesk, element: Annotated[str, Query(min_length=1, max_length=120)]
) -> review_wire.UndoPath:
    """Give what must come off again to get at an element, and what that costs."""
    return review_map.way_back(desk.read(job).state, element)
