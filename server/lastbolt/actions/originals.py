"""Where a photo's original is: here, still on the phone that recorded it, or gone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from .ports import Photos
from .record import DESK

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


def awaited_in(photos: Photos, added: Iterable[Mapping[str, Any]]) -> tuple[Awaited, ...]:
    """Give the photos of `photo-added` entries whose originals are still on a phone, each once."""
    found: dict[str, Awaited] = {}
    for raw in added:
        sha256, device = str(raw.get("sha256") or ""), str(raw["device"])
        if sha256 and sha256 not in found and where_is(photos, sha256, device) == "on the phone":
            found[sha256] = Awaited(sha256, device, str(raw["by"]), photos.has_stand_in(sha256))
    return tuple(found.values())
