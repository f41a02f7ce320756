"""Routes of the handover sheet: its content for the screen, and the page to print."""

from __future__ import annotations

from urllib.parse import quote

from fastapi import APIRouter, Request
from fastapi.responses import Response

from ..actions.paper_words import Language
from ..actions.papers import OnPaper
from ..actions.print_handover import handover_paper
from ..report.handover import handover_sheet
from . import handover_wire as wire
from .desk import AtDesk
from .forms import forms_of
from .record import Paper, pdf

router = APIRouter(prefix="/api/jobs", tags=["handover"])


@router.get("/{job:path}/handover", operation_id="getHandover")
def get_handover(job: str, desk: AtDesk, request: Request) -> wire.HandoverSheet:
    """Give the ten sections of the handover sheet, as the job stands now."""
    known, bench = desk.read(job), desk.wired.bench
    sheet = handover_sheet(known.state, bench.view(job).verdict, bench.entries(job))
    sections = [
        wire.HandoverSection(
            number=number,
            title=section.title,
            nothing=section.nothing,
            lines=[
                wire.HandoverLine(
                    subject=line.subject,
                    text=line.text,
                    ticked=line.ticked,
                    photos=[known.photos[name] for name in line.photos if name in known.photos],
                    forms=forms_of(line.text),
                )
                for line in section.lines
            ],
        )
        for number, section in enumerate(sheet.sections, start=1)
    ]
    return wire.HandoverSheet(
        job=sheet.job,
        machine=sheet.machine,
        title=sheet.title,
        bay=sheet.bay,
        giver=sheet.giver,
        taker=sheet.taker,
        time=sheet.time,
        offered=known.state.offered is not None,
        accepted=known.state.offered is None and bool(sheet.taker),
        sections=sections,
        sealed=sheet.sealed,
        entries=len(bench.entries(job)),
        head=bench.view(job).head,
        unsent=list(sheet.unsent),
        forms=forms_of(*sheet.unsent),
        address=job_address(desk.wired.settings.address, request, job),
    )


@router.get("/{job:path}/handover.pdf", operation_id="getHandoverPaper", response_class=Response)
def get_handover_paper(
    job: str, desk: AtDesk, request: Request, paper: Paper = "a4", language: Language = "en"
) -> Response:
    """Give the handover sheet as PDF, on one page where that can be read."""
    wired = desk.wired
    address = wired.settings.address or str(request.base_url)
    drawn = handover_paper(wired.shop, wired.bench, job, OnPaper(paper, address, language))
    return pdf(drawn, f"{job} handover.pdf")


def job_address(settled: str | None, request: Request, job: str) -> str:
    """Give the address of a job's page: the shop's own where one is set, else the one that was asked."""
    start = (settled or str(request.base_url)).rstrip("/")
    return f"{start}/jobs/{quote(job, safe='')}"
