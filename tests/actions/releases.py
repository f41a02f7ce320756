"""A shop with the sample job, its photos and a signed release, for tests of what a signature proves."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from lastbolt.actions.record import record
from lastbolt.actions.release import ReleaseRoom, Wish, ask_release, sign_release
from lastbolt.errors import NotAllowedError
from lastbolt.settings import settings_from
from lastbolt.vision.pixels import preview, read_photo
from lastbolt.wiring import Wired, wire

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
JOB = "wagtail-clean"
PIN = "3141"
ADDRESS = "http://192.168.1.20:8000"


class TwoLeads:
    """Ilse and Lee are leads; everybody's PIN is the same."""

    def confirm(self, person: str, pin: str) -> str:
        if pin != PIN:
            raise NotAllowedError(f"That PIN is not {person}'s.")
        return person

    def is_lead(self, person: str) -> bool:
        return person in ("Ilse", "Lee")


class Clock:
    """Stands still until it is moved."""

    def __init__(self) -> None:
        self.now = datetime(2026, 5, 8, 13, 40, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.now

    def move(self, **by: float) -> None:
        self.now += timedelta(**by)


def sample_raws() -> list[dict]:
    """Give the clean sample up to where release is asked for."""
    raws = [json.loads(line) for line in (SAMPLES / "clean.jsonl").read_text().splitlines()]
    return [raw for raw in raws if raw["kind"] not in ("release-asked", "release-signed")]


def room_in(wired: Wired, clock: Clock | None = None, **more) -> ReleaseRoom:
    shop = replace(wired.shop, clock=clock or Clock())
    return ReleaseRoom(shop, wired.bench, wired.releases, wired.signer, TwoLeads(), ADDRESS, **more)


def sample_shop(folder: Path, *, photos: bool = True) -> Wired:
    """Open a shop that holds the sample job, and its photos with previews."""
    wired = wire(settings_from({"LASTBOLT_DATA": str(folder)}))
    if photos:
        for path in sorted((SAMPLES / "photos").glob("*.jpg")):
            sha256 = wired.photos.put(path.read_bytes())
            wired.photos.put_preview(sha256, preview(read_photo(path.read_bytes()).image, 640))
    record(wired.journal, Clock(), sample_raws(), job=JOB)
    return wired


def released(wired: Wired, clock: Clock | None = None) -> ReleaseRoom:
    """Ask for the release of the sample and sign it."""
    clock = clock or Clock()
    room = room_in(wired, clock)
    ask_release(room, JOB, "Ilse", {"nothing_else_apart": True, "scope": "all of the job"})
    clock.move(seconds=61)
    sign_release(room, JOB, Wish("Ilse", PIN))
    return room
