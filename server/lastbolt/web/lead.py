"""Routes of the lead's desk: the findings with their photo pairs, and the trays."""

from __future__ import annotations

from fastapi import APIRouter

from . import lead_answers, lead_wire
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
