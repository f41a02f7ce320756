"""Signed releases and their papers: put once, never changed."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from sqlite_utils import Database as Tables

from ..errors import NotFoundError, StoreError
from ..report.release_document import KeptRelease
from ..said import said
from .database import Database


class ReleaseRows:
    """Keeps what was signed."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def put(self, kept: KeptRelease, papers: Mapping[str, bytes]) -> None:
        """Keep a signed release and its papers, by their SHA-256; one that is here is left as it is."""
        with self._database.writing() as tables:
            _put(tables, kept, papers)

    def of(self, job: str) -> list[KeptRelease]:
        """Give the signed releases of a job, the oldest first."""
        with self._database.reading() as tables:
            rows = tables.execute("SELECT * FROM releases WHERE job = ? ORDER BY position", [job])
            return [KeptRelease(*row) for row in rows.fetchall()]

    def paper(self, sha256: str) -> bytes:
        """Give a paper's bytes.

        Raises:
            NotFoundError: it is not here.
            StoreError: its bytes are not those that were kept.
        """
        with self._database.reading() as tables:
            found = tables.execute("SELECT data FROM release_papers WHERE sha256 = ?", [sha256]).fetchone()
        if found is None:
            raise NotFoundError(
                said("the paper {photo} is not here; print the record anew", photo=sha256[:12])
            )
        if hashlib.sha256(found[0]).hexdigest() != sha256:
            raise StoreError(
                said("the paper {photo} was changed on disk; put back a backup", photo=sha256[:12])
            )
        return bytes(found[0])


def _put(tables: Tables, kept: KeptRelease, papers: Mapping[str, bytes]) -> None:
    tables.execute(
        "INSERT OR IGNORE INTO releases VALUES (?, ?, ?, ?, ?, ?, ?)",
        [
            kept.job,
            kept.position,
            kept.record,
            kept.document,
            kept.signature,
            kept.papers,
            kept.papers_signature,
        ],
    )
    for sha256, data in papers.items():
        tables.execute("INSERT OR IGNORE INTO release_papers VALUES (?, ?)", [sha256, data])
