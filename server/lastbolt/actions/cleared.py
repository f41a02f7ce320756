"""A photo in which a tray looks cleared is held against an earlier one that showed the tray empty."""

from __future__ import annotations

from dataclasses import dataclass

from ..vision.outcome import Look, Unusable
from .ports import Shop


@dataclass(frozen=True, slots=True)
class OfTray:
    """Whose photo it is, and whose turn at the reader it takes."""

    job: str
    container: str | None
    device: str


def since_empty(shop: Shop, photo: bytes, seen: Look, of: OfTray) -> Look:
    """Give the reading of a tray's photo, made unsure by what an earlier photo of it, empty, does not show.

    Only a reading that counts nothing is held against anything; a job without such an earlier photo, or with
    one that cannot be read any more, leaves it as it is. The photo is read a second time for it.

    Raises:
        StoreError: too many photos wait, or the server stops.
    """
    earlier = _empty_before(shop, of) if seen.count.count == 0 and of.container else None
    if earlier is None:
        return seen
    again = shop.reader.read(photo, device=of.device, earlier=earlier)
    return seen if isinstance(again, Unusable) else again.seen


def doubt_words(seen: Look) -> str:
    """Say what the comparison found, to be added to a sentence; nothing when it found nothing."""
    found = [doubt for doubt in seen.unsure if "earlier photo" in doubt]
    return f" Unsure whether it is empty: {found[0]}." if found else ""


def _empty_before(shop: Shop, of: OfTray) -> bytes | None:
    """Give the newest photo of the tray that was counted as empty, or called so by a person."""
    for line in reversed(shop.journal.lines(of.job)):
        entry = line.entry
        is_count = entry["kind"] in ("photo-counted", "reading-corrected")
        photo = entry.get("photo")
        if not is_count or entry.get("container") != of.container or entry.get("n") != 0 or not photo:
            continue
        if shop.photos.state(str(photo)) == "here":
            return shop.photos.original(str(photo))
    return None
