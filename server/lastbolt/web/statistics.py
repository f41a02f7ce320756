"""Routes of statistics that help with the next job: by step and set, never by person."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import Field

from ..plan.usual_trouble import UsualTrouble
from .desk import AtDesk
from .forms import forms_of
from .wire import Form, Wire

router = APIRouter(prefix="/api/statistics", tags=["statistics"])


class StepTime(Wire):
    """Minutes of work on a step; `before` is that of the last job of the kind, null where it was not done."""

    step: str
    minutes: float
    before: float | None


class Trouble(Wire):
    """What goes wrong with an element, how often over past jobs of the kind."""

    element: str
    check: str
    times: int
    jobs: int
    rate: float
    sentence: str


class JobStatistics(Wire):
    """What a job can learn from those of its kind; `last` is the one whose minutes stand beside its own."""

    job: str
    last: str | None
    past: list[str] = Field(description="the jobs of the same kind that were looked at, the oldest first")
    steps: list[StepTime]
    troubles: list[Trouble] = Field(description="over one in ten, seen in three jobs or more")
    rare: list[Trouble] = Field(description="what came up less often, or in too few jobs to say")


class Compared(Wire):
    """A picture whose count a person's count stands beside."""

    job: str
    container: str
    read: int
    low: int
    high: int
    counted: int


class ReaderHere(Wire):
    """How good the reader of photos is in this shop."""

    sentence: str
    forms: list[Form] = Field(description="how the sentence is made, for a page in another language")
    compared: int
    equal: int
    within: int
    mean_off: float
    off: list[Compared] = Field(description="those that it got wrong, the worst first")


@router.get("/reader", operation_id="getReaderHere")
def get_reader(desk: AtDesk) -> ReaderHere:
    """Say how good the reader's counts are here, by what people counted."""
    found = desk.wired.statistics.reader()
    return ReaderHere(
        sentence=found.sentence,
        forms=forms_of(found.sentence),
        compared=found.compared,
        equal=found.equal,
        within=found.within,
        mean_off=found.mean_off,
        off=[Compared.model_validate(each, from_attributes=True) for each in found.off],
    )


@router.get("", operation_id="getStatistics")
def get_statistics(desk: AtDesk, job: Annotated[str, Query(min_length=1, max_length=120)]) -> JobStatistics:
    """Compare a job with those of its kind: time by step, what usually gives trouble."""
    found = desk.wired.statistics.of_job(job)
    return JobStatistics(
        job=found.job,
        last=found.last,
        past=list(found.past),
        steps=[StepTime.model_validate(step, from_attributes=True) for step in found.steps],
        troubles=[_trouble(each) for each in found.troubles],
        rare=[_trouble(each) for each in found.rare],
    )


def _trouble(each: UsualTrouble) -> Trouble:
    return Trouble.model_validate(each, from_attributes=True)
