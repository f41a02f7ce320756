"""Killed -9 at random moments of entries and photos: all that was answered is there, nothing half, nothing twice."""

from __future__ import annotations

import random
import sqlite3
import time
from collections import Counter
from pathlib import Path

from tests.faults.length import figures, short_or_long
from tests.faults.shop_under_fire import JOBS, Phone, open_jobs, opened, run_and_kill

from lastbolt.actions.audit import audit

LONGEST_LIFE_S = 0.25


def test_what_was_answered_outlives_every_kill(tmp_path):
    kills, began = short_or_long(60, 1000), time.monotonic()
    chance = random.Random(11)
    open_jobs(tmp_path)
    phones = [Phone(f"phone {n}", JOBS[n % 2], random.Random(n)) for n in range(4)]
    for _ in range(kills):
        run_and_kill(tmp_path, phones, after_s=chance.uniform(0.005, LONGEST_LIFE_S))
    seconds = time.monotonic() - began

    lost, half, twice = counted(tmp_path, phones)
    entries, photos = sum(len(p.entries) for p in phones), sum(len(p.photos) for p in phones)
    figures(
        "kills", kills=kills, entries_answered=entries, photos_answered=photos, lost=lost, half=half, twice=twice,
        bytes=sum(p.sent_bytes for p in phones), seconds=round(seconds),
    )  # fmt: skip
    assert entries > kills and photos > kills / 4, "too little was answered for this to say anything"
    assert (lost, half, twice) == (0, 0, 0)


def counted(folder: Path, phones: list[Phone]) -> tuple[int, int, int]:
    """Count what was answered and is not there, what is there by half, and what is there twice."""
    wired = opened(folder)
    lines = [line for job in JOBS for line in wired.journal.lines(job)]
    kept = {line.entry["id"]: line.hash for line in lines}
    photos = [line.entry["sha256"] for line in lines if line.entry["kind"] == "photo-added"]
    readings = Counter(line.entry["photo"] for line in lines if line.entry["kind"] == "photo-counted")
    seqs = Counter((line.entry["device"], line.entry["seq"]) for line in lines)
    lost = sum(kept.get(entry) != digest for p in phones for entry, digest in p.entries.items())
    lost += sum(
        sha256 not in photos or wired.photos.state(sha256) != "here" for p in phones for sha256 in p.photos
    )
    half = sum(readings[sha256] != 1 for sha256 in photos)
    half += sum(not found.is_whole for found in (audit(wired.shop, job) for job in JOBS))
    half += len(list(folder.glob("photos/**/.arriving-*")))
    half += sum(
        len(path.name) == 64 and wired.photos.state(path.name) != "here"
        for path in folder.glob("photos/??/??/*")
    )
    twice = sum(n - 1 for n in (Counter(photos) + seqs).values() if n > 1)
    looked_up = [list(map(str, wired.look_up.photos(s))) for s in photos]
    wired.journal.rebuild()
    assert [list(map(str, wired.look_up.photos(s))) for s in photos] == looked_up
    wired.close()
    with sqlite3.connect(folder / "lastbolt.sqlite") as file:
        assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    file.close()
    return lost, half, twice
