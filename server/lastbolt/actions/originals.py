"""Where a photo's original is: here, still on the phone that recorded it, or gone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from ..errors import BadInputError
from ..journal import AnyEntry, effective, entry_from, in_order
from ..journal.order import CORRECTIONS
from .ports import Photos
from .record import DESK

_TELLING = CORRECTIONS | {"photo-rejected", "clock-marked"}
"""Which entries tell whether a photo is set aside; clock marks say which of two corrections is newer."""
Where = Literal["here", "on the phone", "missing"]


@dataclass(frozen=True, slots=True)
class Awaited:
    """A photo whose original has not come; `has_stand_in`: a small picture of it has."""

    sha256: str
    device: str
    by: str
    has_stand_in: bool

    def sentence(self) -> str:
        """Say what has not come, and where it is."""
        lies = f"The original of the photo {self.sha256[:12]} is still on {self.device} ({self.by})"
        if self.has_stand_in:
            return f"{lies}; only a small picture of it is here."
        return f"{lies}, or it was lost; nothing of it is here."


def where_is(photos: Photos, sha256: str, device: str) -> Where:
    """Tell where an original is, by what lies in the photo folder and which device recorded it.

    A preview made here shows that the original was here once: then it is missing, not awaited.
    """
    if photos.has(sha256):
        return "here"
    made_here = photos.preview(sha256) is not None and not photos.has_stand_in(sha256)
    return "missing" if made_here or device == DESK else "on the phone"


def awaited_in(photos: Photos, entries: Iterable[Mapping[str, Any]]) -> tuple[Awaited, ...]:
    """Give the photos of a job's entries whose originals are still on a phone, each once.

    A photo that was taken back before its original went over never comes: nobody waits for it.
    """
    kept = tuple(entries)
    set_aside = _set_aside_in(kept)
    found: dict[str, Awaited] = {}
    for raw in _not_come(photos, kept):
        sha256 = str(raw["sha256"])
        if raw.get("photo") not in set_aside and sha256 not in found:
            found[sha256] = Awaited(sha256, str(raw["device"]), str(raw["by"]), photos.has_stand_in(sha256))
    return tuple(found.values())


def taken_back_in(photos: Photos, entries: Iterable[Mapping[str, Any]]) -> frozenset[str]:
    """Give the hashes of photos that were taken back on a phone before their originals went over."""
    kept = tuple(entries)
    set_aside = _set_aside_in(kept)
    return frozenset(str(raw["sha256"]) for raw in _not_come(photos, kept) if raw.get("photo") in set_aside)


def _not_come(photos: Photos, entries: Iterable[Mapping[str, Any]]) -> Iterator[Mapping[str, Any]]:
    for raw in entries:
        sha256 = str(raw.get("sha256") or "") if raw.get("kind") == "photo-added" else ""
        if sha256 and where_is(photos, sha256, str(raw["device"])) == "on the phone":
            yield raw


def _set_aside_in(entries: Iterable[Mapping[str, Any]]) -> frozenset[str]:
    """Name the photos that stand rejected, corrections applied; what is no sound entry rejects none."""
    told = in_order(entry for raw in entries if raw.get("kind") in _TELLING and (entry := _read(raw)))
    return frozenset(h.entry.photo for h in effective(told) if h.entry.kind == "photo-rejected")


def _read(raw: Mapping[str, Any]) -> AnyEntry | None:
    try:
        return entry_from(dict(raw))
    except BadInputError:
        return None
