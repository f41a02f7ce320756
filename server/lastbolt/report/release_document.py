"""What is signed at a release: small canonical JSON (RFC 8785) over the chain's head and the record."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from ..errors import DamagedError
from ..journal.codec import Raw, canonical
from ..said import said
from .sheet import Sheet, sheet_json

RELEASE_FORMAT, PAPERS_FORMAT, VERSION = "lastbolt release", "lastbolt release papers", 1


@dataclass(frozen=True, slots=True)
class KeptRelease:
    """A signed release as it is kept: `record`, `document` and `papers` are canonical JSON texts.

    `position` is the place of the `release-signed` entry; the chain's hash there is the signed head.
    """

    job: str
    position: int
    record: str
    document: str
    signature: str
    papers: str
    papers_signature: str

    @property
    def said(self) -> dict[str, Any]:
        """Give what the document says."""
        return _read(self.document, self.position)

    @property
    def files(self) -> dict[str, str]:
        """Give the SHA-256 of each paper by its name."""
        files = _read(self.papers, self.position).get("files")
        return files if isinstance(files, dict) else {}

    def as_json(self) -> Raw:
        """Give it as it stands in an exported job."""
        return {
            "position": self.position,
            "record": _read(self.record, self.position),
            "document": self.said,
            "signature": self.signature,
            "papers": _read(self.papers, self.position),
            "papers_signature": self.papers_signature,
        }


def _read(text: str, position: int) -> dict[str, Any]:
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise DamagedError(
            said(
                "The release at place {position} was changed on disk; put back the last backup",
                position=position,
            )
        ) from error
    return found if isinstance(found, dict) else {}


@dataclass(frozen=True, slots=True)
class Signing:
    """Who signed which job, when (RFC 3339), over which line of its journal, with which public key.

    `second` is who else stands for it, None for nobody.
    """

    job: str
    position: int
    head: str
    by: str
    second: str | None
    at: str
    public_key: str


def record_text(sheet: Sheet) -> str:
    """Write a release record as canonical JSON: what is hashed."""
    return canonical(sheet_json(sheet)).decode()


def release_document(record: str, signing: Signing, statement: str, check_set: str) -> str:
    """Write what is signed: the head of the chain, the hash of the record, who, when, with which key."""
    said: Raw = {
        "format": RELEASE_FORMAT,
        "version": VERSION,
        "job": signing.job,
        "position": signing.position,
        "head": signing.head,
        "record": sha256(record.encode()),
        "statement": statement,
        "by": signing.by,
        "second": signing.second,
        "at": signing.at,
        "check_set": check_set,
        "public_key": signing.public_key,
    }
    return canonical(said).decode()


def papers_document(document: str, papers: Mapping[str, bytes], public_key: str) -> str:
    """Write what is signed over the printed papers: the hash of each file, and of the release they print."""
    said: Raw = {
        "format": PAPERS_FORMAT,
        "version": VERSION,
        "release": sha256(document.encode()),
        "files": {name: sha256(data) for name, data in papers.items()},
        "public_key": public_key,
    }
    return canonical(said).decode()


def sha256(data: bytes) -> str:
    """Give the SHA-256 of bytes as 64 lower-case hex digits."""
    return hashlib.sha256(data).hexdigest()


Signed = Callable[[str, bytes, str], bool]
"""Tells whether a signature over a message is that of a public key."""


def signature_faults(kept: KeptRelease, is_signed: Signed) -> tuple[str, ...]:
    """Say what of a kept release does not fit by itself: signatures, the record's hash."""
    faults = []
    try:
        said, papers = kept.said, _read(kept.papers, kept.position)
    except DamagedError as error:
        return (f"{error}.",)
    if not is_signed(said.get("public_key", ""), kept.document.encode(), kept.signature):
        faults.append(f"The release at place {kept.position}: its signature does not fit what is signed.")
    if said.get("record") != sha256(kept.record.encode()):
        faults.append(f"The release at place {kept.position}: its record was changed after it was signed.")
    if not is_signed(papers.get("public_key", ""), kept.papers.encode(), kept.papers_signature):
        faults.append(f"The release at place {kept.position}: the signature of its papers does not fit.")
    if papers.get("release") != sha256(kept.document.encode()) or papers.get("public_key") != said.get(
        "public_key"
    ):
        faults.append(f"The release at place {kept.position}: its papers are those of another release.")
    return tuple(faults)
