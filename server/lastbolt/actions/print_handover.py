"""The handover sheet on paper: ten sections in order, boxes to tick, pictures, a symbol back to the job."""

from __future__ import annotations

from ..paper.page import Print
from ..report.handover import HandoverSheet, Section, handover_sheet
from ..report.sheet import Block, Entry, Picture, Sheet, spoken
from ..said import joined, said
from .paper_words import words_of
from .papers import OnPaper, draw_sheet, link_to, printed_at
from .ports import Shop
from .release_source import source_of
from .require import require_job
from .verify import Bench

GRAVE = frozenset({1})
HALF_DONE, SIGNATURES = 2, 10
DOTS = "." * 24
MOST_PICTURES = 8


def handover_paper(shop: Shop, bench: Bench, job: str, asked: OnPaper) -> bytes:
    """Give the handover sheet of a job as PDF, on one page where its letters may shrink so far.

    Raises:
        NotFoundError: no entry names that job.
    """
    require_job(shop.look_up, job)
    source = source_of(shop.journal, bench, job)
    sheet = handover_sheet(source.job, bench.view(job).verdict, source.entries)
    words = words_of(asked.language)
    wish = Print(
        asked.paper,
        link_to(job, asked.address),
        printed_at(shop.clock()),
        {},
        said("Handover sheet, {job}", job=job),
        wanted_pages=1,
        words=words,
    )
    sealed = said("{n} entries up to the head {head}", n=len(source.lines), head=source.head)
    return draw_sheet(shop.photos, spoken(on_paper(sheet, source.hashes(), sealed), words), wish)


def on_paper(sheet: HandoverSheet, hashes: dict[str, str], sealed: str) -> Sheet:
    """Put a handover sheet into blocks; `hashes` gives the SHA-256 of a photo by its name."""
    where = [said("bay {bay}", bay=sheet.bay)] if sheet.bay else []
    time = [said("{time} by the record", time=f"{sheet.time:%Y-%m-%d %H:%M %z}")] if sheet.time else []
    under = (
        f"{sheet.machine}: {sheet.job} {sheet.title}".strip(),
        joined(", ", [*where, *time]) if where or time else "",
        said("From {giver} to {taker}", giver=sheet.giver or DOTS, taker=sheet.taker or DOTS),
        said("Phone of the giver {dots}", dots=DOTS),
    )
    blocks = tuple(_block(number, section, hashes) for number, section in enumerate(sheet.sections, start=1))
    foot = (said("Record: {sealed}.", sealed=sealed), *(said("{owed}.", owed=owed) for owed in sheet.unsent))
    return Sheet(said("Handover sheet"), tuple(line for line in under if line), blocks, foot)


def _block(number: int, section: Section, hashes: dict[str, str]) -> Block:
    photos = [(line.subject, name) for line in section.lines for name in line.photos[-1:] if name in hashes]
    shown = photos[:MOST_PICTURES] if number == HALF_DONE else []
    by_hand = [said("On this paper: given {dots} taken {dots}", dots=DOTS)] if number == SIGNATURES else []
    return Block(
        number,
        section.title,
        (*(Entry(line.text, line.ticked) for line in section.lines), *(Entry(text) for text in by_hand)),
        pictures=tuple(Picture(hashes[name], subject) for subject, name in shown),
        nothing=section.nothing,
        is_grave=number in GRAVE,
    )
