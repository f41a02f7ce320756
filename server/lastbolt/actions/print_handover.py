"""The handover sheet on paper: ten sections in order, boxes to tick, pictures, a symbol back to the job."""

from __future__ import annotations

from ..paper.page import Paper, Print
from ..report.handover import HandoverSheet, Section, handover_sheet
from ..report.sheet import Block, Entry, Picture, Sheet
from .papers import draw_sheet, link_to, printed_at
from .ports import Shop
from .release_source import source_of
from .require import require_job
from .verify import Bench

GRAVE = frozenset({1})
HALF_DONE, SIGNATURES = 2, 10
DOTS = "." * 24
MOST_PICTURES = 8


def handover_paper(shop: Shop, bench: Bench, job: str, paper: Paper, *, address: str | None) -> bytes:
    """Give the handover sheet of a job as PDF, on one page where its letters may shrink so far.

    Raises:
        NotFoundError: no entry names that job.
    """
    require_job(shop.look_up, job)
    source = source_of(shop.journal, bench, job)
    sheet = handover_sheet(source.job, bench.view(job).verdict, source.entries)
    hashes = source.hashes()
    wish = Print(
        paper,
        link_to(job, address),
        printed_at(shop.clock()),
        {},
        f"Handover sheet, {job}",
        wanted_pages=1,
    )
    sealed = f"{len(source.lines)} entries up to the head {source.head}"
    return draw_sheet(shop.photos, on_paper(sheet, hashes, sealed), wish)


def on_paper(sheet: HandoverSheet, hashes: dict[str, str], sealed: str) -> Sheet:
    """Put a handover sheet into blocks; `hashes` gives the SHA-256 of a photo by its name."""
    time = f"{sheet.time:%Y-%m-%d %H:%M %z} by the record" if sheet.time else ""
    under = (
        f"{sheet.machine}: {sheet.job} {sheet.title}".strip(),
        ", ".join(part for part in (f"bay {sheet.bay}" if sheet.bay else "", time) if part),
        f"From {sheet.giver or DOTS} to {sheet.taker or DOTS}",
        f"Phone of the giver {DOTS}",
    )
    blocks = tuple(_block(number, section, hashes) for number, section in enumerate(sheet.sections, start=1))
    foot = (f"Record: {sealed}.", *(f"{said}." for said in sheet.unsent))
    return Sheet("Handover sheet", tuple(line for line in under if line), blocks, foot)


def _block(number: int, section: Section, hashes: dict[str, str]) -> Block:
    photos = [(line.subject, name) for line in section.lines for name in line.photos[-1:] if name in hashes]
    shown = photos[:MOST_PICTURES] if number == HALF_DONE else []
    return Block(
        number,
        section.title,
        (
            *(Entry(line.text, line.ticked) for line in section.lines),
            *(Entry(f"On this paper: given {DOTS} taken {DOTS}") for _ in range(number == SIGNATURES)),
        ),
        pictures=tuple(Picture(hashes[name], subject) for subject, name in shown),
        nothing=section.nothing,
        is_grave=number in GRAVE,
    )
