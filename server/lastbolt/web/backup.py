"""The route that says how old the last backup is."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import Field

from .desk import AtDesk
from .forms import forms_of
from .wire import Form, Wire

router = APIRouter(prefix="/api", tags=["backup"])


class Backup(Wire):
    """The last backup: when, whether a person must look, and all of it in words."""

    made: str | None = Field(description="RFC 3339, null when there is none")
    needs_a_person: bool
    sentence: str
    forms: list[Form] = Field(description="how the sentence is made, for a page in another language")


@router.get("/backup", operation_id="getBackup")
def get_backup(desk: AtDesk) -> Backup:
    """Say how old the last backup is, and whether the last try failed."""
    status = desk.wired.regular_backup.status()
    return Backup(
        made=status.made,
        needs_a_person=status.needs_a_person,
        sentence=status.sentence,
        forms=forms_of(status.sentence),
    )
