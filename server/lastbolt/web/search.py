"""The route of the search: whatever was written, in any job."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import Field

from .desk import AtDesk
from .wire import Wire

router = APIRouter(prefix="/api/search", tags=["search"])


class Hit(Wire):
    """One entry that was found, and the job that it is of."""

    job: str
    machine: str
    title: str
    about: str = Field(description="set, part, step, machine, note and so on")
    name: str
    said: str
    by: str
    at: datetime
    entry: str


class Found(Wire):
    """What was found; `all_words` is false where nothing has all of the words and these have some."""

    words: list[str]
    all_words: bool
    hits: list[Hit] = Field(description="the best first")


@router.get("", operation_id="search")
def search(
    desk: AtDesk,
    q: Annotated[str, Query(max_length=300, description="words, or a question")],
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
) -> Found:
    """Look for words in jobs, machines, steps, sets and notes; M8×30 finds an M8x1.25x30."""
    found = desk.wired.search.find(q, limit=limit)
    hits = [Hit.model_validate(hit, from_attributes=True) for hit in found.hits]
    return Found(words=list(found.words), all_words=found.all_words, hits=hits)
