"""Draw what people print: release record and handover sheet, with the small pictures that belong on them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from urllib.parse import quote

from ..errors import NotFoundError
from ..paper.page import Paper, Print, draw
from ..report.sheet import Sheet
from ..vision.shrink import shrink
from .paper_words import Language
from .ports import Photos

PICTURE_PX = 480


@dataclass(frozen=True, slots=True)
class OnPaper:
    """What somebody wants printed on: the paper, the server's address if it has one, the language."""

    paper: Paper
    address: str | None = None
    language: Language = "en"


PAPERS: tuple[Paper, ...] = ("a4", "letter")


def link_to(job: str, address: str | None) -> str:
    """Give what a printed symbol leads to: the job's page, or its name where the shop has no address.

    >>> link_to("hull 7/8", "http://192.168.1.20:8000/")
    'http://192.168.1.20:8000/jobs/hull%207%2F8'
    >>> link_to("hull 7", None)
    'Lastbolt job: hull 7'
    """
    return f"{address.rstrip('/')}/jobs/{quote(job, safe='')}" if address else f"Lastbolt job: {job}"


def printed_at(now: datetime) -> str:
    """Write the time of printing."""
    return f"{now:%Y-%m-%d %H:%M %z}".strip()


def small_pictures(photos: Photos, wanted: Iterable[str]) -> dict[str, bytes]:
    """Give small JPEGs of photos by the SHA-256 of their originals; those that are not here are left out."""
    found = {}
    for sha256 in dict.fromkeys(wanted):
        shown = _small(photos, sha256)
        if shown is not None:
            found[sha256] = shown
    return found


def _small(photos: Photos, sha256: str) -> bytes | None:
    """Shrink our own preview; of a phone's stand-in take what the desk showed, which was shrunk elsewhere."""
    try:
        own = photos.own_preview(sha256)
        return shrink(own, PICTURE_PX) if own else photos.small(sha256)
    except NotFoundError:
        return None


def pictures_of(photos: Photos, sheet: Sheet) -> dict[str, bytes]:
    """Give the small pictures that a sheet shows."""
    return small_pictures(photos, (shown.sha256 for block in sheet.blocks for shown in block.pictures))


def draw_sheet(photos: Photos, sheet: Sheet, wish: Print) -> bytes:
    """Draw a sheet with its pictures, unless the wish brings them along."""
    return draw(sheet, replace(wish, pictures=wish.pictures or pictures_of(photos, sheet)))
