"""The sample job as it lies in a checkout: its two stories, their photos, and photos of all sorts."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from ..errors import NotFoundError
from ..journal import Raw, raws_from_lines
from ..report.text import verdict_text
from ..vision.outcome import Look
from .demo import Story, take_odd, tell
from .ports import Shop
from .verify import Bench

STORIES = ("clean.jsonl", "half_finished.jsonl")
CORNER = "intake-corner"


def read_stories(folder: Path) -> list[Story]:
    """Read both stories with the photos that they share.

    Raises:
        NotFoundError: the folder holds no sample; the installed package has none.
    """
    files = [folder / name for name in STORIES]
    if not all(file.is_file() for file in files):
        raise NotFoundError(
            f"there is no sample job in {folder}; it comes with the project's own folder: run make demo there"
        )
    photos = {}
    for path in sorted((folder / "photos").glob("*.jpg")):
        photo = path.read_bytes()
        photos[hashlib.sha256(photo).hexdigest()] = photo
    return [Story(raws_from_lines(file.read_text().splitlines()), photos) for file in files]


def read_odd(folder: Path) -> dict[str, bytes]:
    """Read the photos of all sorts by name: no label, a stranger's, cut short, no photo at all."""
    return {path.name: path.read_bytes() for path in sorted((folder / "odd").glob("*")) if path.is_file()}


def corner_entries() -> list[Raw]:
    """Give the entry that opens the job which takes the photos of all sorts."""
    return [
        {
            "id": "019df000-0000-7000-8000-000000000001",
            "job": CORNER,
            "device": "sample desk",
            "seq": 1,
            "at": "2026-05-04T07:00:00+02:00",
            "by": "Ilse",
            "role": "lead",
            "kind": "job-opened",
            "machine": "Camera card",
            "title": "Photos of all sorts",
            "level": 1,
            "hands": False,
        }
    ]


def tell_all(shop: Shop, bench: Bench, folder: Path) -> Iterator[str]:
    """Tell both stories with their verdicts, then take in the photos of all sorts; a line at a time."""
    looks: dict[str, Look] = {}
    for story in read_stories(folder):
        yield f"\nThe job {story.job}: {story.entries[0]['machine']}, {story.entries[0]['title']}"
        yield from tell(shop, bench, story, looks)
        yield "\n" + verdict_text(bench.view(story.job).verdict)
    yield "\nPhotos of all sorts, each with its own answer:"
    yield from take_odd(shop, corner_entries(), read_odd(folder))
