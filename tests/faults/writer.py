"""A process that records photos and entries as fast as it can and says each one that was acknowledged.

Run as `python -m tests.faults.writer FOLDER JOB`; it is made to be killed at any moment.
"""

from __future__ import annotations

import hashlib
import sys
from itertools import count
from pathlib import Path

from uuid6 import uuid7

from lastbolt.store.database import Database
from lastbolt.store.journal_rows import JournalRows
from lastbolt.store.photo_files import PhotoFiles


def main(folder: Path, job: str) -> None:
    journal, photos = JournalRows(Database(folder)), PhotoFiles(folder / "photos")
    for number in count(1):
        photo = f"{job}, photo {number}".encode() * 2000
        sha256 = photos.put(photo)
        assert sha256 == hashlib.sha256(photo).hexdigest()
        raws = [
            _raw(job, "photo-added", photo=sha256, sha256=sha256),
            _raw(job, "container-scanned", container="T1"),
        ]
        lines = journal.append_own(job, raws, received="2026-03-09T08:00:00.000Z", new_photo=sha256)
        for line in lines:
            print(line.entry["id"], line.hash, flush=True)


def _raw(job: str, kind: str, **fields: str) -> dict[str, str]:
    return {
        "id": str(uuid7()),
        "job": job,
        "device": "desk",
        "at": "2026-03-09T08:00:00+00:00",
        "by": "Ana",
        "kind": kind,
        **fields,
    }


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
