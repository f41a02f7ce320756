"""Look whether a job's record is as it was written: its chain of hashes, the bytes of photos and sound."""

from __future__ import annotations

from dataclasses import dataclass

from ..finding import pieces
from ..journal import Break, first_break
from .originals import Awaited, awaited_in, taken_back_in
from .ports import Shop
from .require import require_job
from .voice import voice_notes


@dataclass(frozen=True, slots=True)
class Audit:
    """What an audit found: the first entry that does not fit, and photos that are missing or damaged."""

    job: str
    entries: int
    head: str
    broken: Break | None
    photos: int
    missing: tuple[str, ...]
    damaged: tuple[str, ...]
    on_phones: tuple[Awaited, ...] = ()
    voice_notes: int = 0
    missing_voices: tuple[str, ...] = ()
    damaged_voices: tuple[str, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Tell whether everything is as it was written."""
        lost = (*self.missing, *self.damaged, *self.missing_voices, *self.damaged_voices)
        return self.broken is None and not lost and not self.on_phones

    def sentences(self) -> list[str]:
        """Say what was found, one sentence a thing."""
        said = []
        if self.broken:
            said.append(f"{self.broken.why} (id {self.broken.entry_id}); nothing after it can be trusted.")
        said += [f"The photo {sha256} has other bytes than were recorded." for sha256 in self.damaged]
        said += [f"The photo {sha256} is recorded, but its bytes are not here." for sha256 in self.missing]
        said += [each.sentence() for each in self.on_phones]
        said += [
            f"The voice note {sha256} has other bytes than were recorded." for sha256 in self.damaged_voices
        ]
        said += [
            f"The voice note {sha256} is recorded, but its bytes are not here; it may still be on its phone."
            for sha256 in self.missing_voices
        ]
        counted = [f"{self.entries} entries", f"{self.photos} photos"]
        counted += [pieces(self.voice_notes, "voice note")] * bool(self.voice_notes)
        kept = f"{', '.join(counted[:-1])} and {counted[-1]}"
        return said or [f"{kept} are as they were recorded. Head {self.head}."]


def audit(shop: Shop, job: str) -> Audit:
    """Walk a job's chain and hash every photo and voice note that its entries name by hash.

    The chain cannot show that its newest entries were cut off; compare `head` with one written down before.

    Raises:
        NotFoundError: no entry names that job.
    """
    require_job(shop.look_up, job)
    lines = shop.journal.lines(job)
    entries = [line.entry for line in lines]
    added = [raw for raw in entries if raw.get("kind") == "photo-added"]
    hashes = list(dict.fromkeys(raw["sha256"] for raw in added if raw.get("sha256")))
    states = {sha256: shop.photos.state(sha256) for sha256 in hashes}
    awaited = awaited_in(shop.photos, entries)
    still = {each.sha256 for each in awaited} | taken_back_in(shop.photos, entries)
    voices = {sha256: shop.photos.state(sha256) for sha256 in voice_notes(lines)}
    return Audit(
        job=job,
        entries=len(lines),
        head=shop.journal.head(job),
        broken=first_break(lines),
        photos=len(hashes),
        missing=tuple(
            sha256 for sha256, state in states.items() if state == "missing" and sha256 not in still
        ),
        damaged=tuple(sha256 for sha256, state in states.items() if state == "damaged"),
        on_phones=awaited,
        voice_notes=len(voices),
        missing_voices=tuple(sha256 for sha256, state in voices.items() if state == "missing"),
        damaged_voices=tuple(sha256 for sha256, state in voices.items() if state == "damaged"),
    )
