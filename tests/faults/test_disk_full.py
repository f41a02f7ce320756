"""The disk full at each point of a write: a sentence, nothing spoilt, and it goes on when there is room."""

from __future__ import annotations

import hashlib
import sqlite3
from pathlib import Path

from tests.faults.length import figures, short_or_long
from tests.faults.shop_under_fire import JOBS, open_jobs, opened, photo_of
from tests.faults.small_disk import small_disk

from lastbolt.actions.audit import audit
from lastbolt.actions.photograph import Hint, take
from lastbolt.actions.record import record
from lastbolt.errors import DiskFullError, StoreError
from lastbolt.wiring import Wired

PHOTO_BYTES = 90_000
HINT = Hint(container="T1", device="camera", live=True)
WRITTEN_AT_MOST = 400_000


def test_each_point_where_the_disk_can_be_full(tmp_path):
    folder = tmp_path / "disk"
    steps = short_or_long(25, 100)
    with small_disk(folder) as (what, leave_free):
        open_jobs(folder)
        wired = opened(folder)
        refused = {"photo": 0, "entries": 0}
        for step in range(steps):
            free = WRITTEN_AT_MOST * step // steps
            photo = photo_of(step, PHOTO_BYTES)
            leave_free(free)
            refused["photo"] += is_refused(
                lambda p=photo: take(wired.shop, p, job=JOBS[0], by="Ana", hint=HINT)
            )
            refused["entries"] += is_refused(lambda n=step: scan_many(wired, n))
            assert_whole(wired)
            leave_free(None)
            assert take(wired.shop, photo, job=JOBS[0], by="Ana", hint=HINT).outcome in (
                "kept",
                "here already",
            )
            scan_many(wired, step)
            assert wired.photos.state(hashlib.sha256(photo).hexdigest()) == "here"
            assert_whole(wired)
        assert wired.photos.sweep() == 0
        wired.close()
        with sqlite3.connect(folder / "lastbolt.sqlite") as file:
            assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        file.close()
    figures(
        "disk full", steps=steps, photos_refused=refused["photo"], entries_refused=refused["entries"], on=what
    )
    assert min(refused.values()) > 0 and (what != "a tmpfs" or max(refused.values()) < steps), refused


def is_refused(write) -> bool:
    """Tell whether a write was refused, in one sentence that names the disk and a way out."""
    try:
        write()
    except StoreError as error:
        assert isinstance(error, DiskFullError) or "disk refused" in str(error), error
        assert ";" in str(error) and "\n" not in str(error)
        return True
    return False


def scan_many(wired: Wired, step: int) -> None:
    """Record the same eighty entries of a step, however often it is asked."""
    raws = [
        {"id": f"01960000-0000-7000-8000-{step:06d}{n:06d}", "job": JOBS[1], "device": "phone", "seq": step * 80 + n,
         "at": "2026-03-09T08:00:00+00:00", "by": "Ana", "kind": "container-scanned", "container": "T" * 100}
        for n in range(1, 81)
    ]  # fmt: skip
    record(wired.journal, wired.clock, raws)


def assert_whole(wired: Wired) -> None:
    for job in JOBS:
        found = audit(wired.shop, job)
        assert found.is_whole, found.sentences()
    lines = wired.journal.lines(JOBS[0])
    kinds = [line.entry["kind"] for line in lines]
    assert kinds.count("photo-added") == kinds.count("photo-counted")
    assert len(wired.journal.lines(JOBS[1])) % 80 == 1


def test_a_full_disk_leaves_the_backup_before_as_it_was(tmp_path: Path):
    from datetime import datetime

    from lastbolt.store.backup_files import read_held

    shop, disk = tmp_path / "shop", tmp_path / "disk"
    open_jobs(shop)
    wired = opened(shop)
    with small_disk(disk) as (_, leave_free):
        made = datetime(2026, 3, 9).isoformat() + "Z"
        wired.backups.copy_to(disk / "backup", made=made)
        before = read_held(disk / "backup")
        take(wired.shop, photo_of(1, 900_000), job=JOBS[0], by="Ana", hint=HINT)
        for free in (4096, 40_000, 200_000):
            leave_free(free)
            assert is_refused(lambda: wired.backups.copy_to(disk / "backup", made="2026-03-10T00:00:00Z"))
            assert read_held(disk / "backup") == before
        leave_free(None)
        after = wired.backups.copy_to(disk / "backup", made="2026-03-10T00:00:00Z")
        assert (after.held.photos, after.held.entries) == (1, 4)
    wired.close()
