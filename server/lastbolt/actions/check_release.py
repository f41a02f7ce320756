"""Check what was signed at a release with nothing but Python itself: goes along beside `check_bundle.py`."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from typing import Any

try:
    from .check_signature import is_signed
except ImportError:
    from check_signature import is_signed  # type: ignore[import-not-found, no-redef]

FOLDER = "releases/"
FORMATS = ("lastbolt release", "lastbolt release papers")

Canonical = Callable[[Any], str]
"""Writes a JSON value in the form of RFC 8785."""


def sha256(data: bytes) -> str:
    """Give the SHA-256 of bytes, 64 hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def faults(
    members: dict[str, bytes], lines: list[dict[str, Any]], canonical: Canonical, key: str | None
) -> Iterator[str]:
    """Say what does not fit of the signed releases of a job, the gravest first; nothing when all of it fits.

    `members` are the files under releases/, `lines` the journal's, `key` the public key that is expected.
    """
    for name in sorted(members):
        if name.endswith(".json"):
            yield from _release(name, members, lines, canonical, key)


def _release(
    name: str, members: dict[str, bytes], lines: list[dict[str, Any]], canonical: Canonical, key: str | None
) -> Iterator[str]:
    try:
        kept = json.loads(members[name].decode("utf-8"))
        document, papers = kept["document"], kept["papers"]
        texts = [canonical(kept[part]).encode("utf-8") for part in ("document", "papers", "record")]
        formats = (document["format"], papers["format"])
        position, public, files = document["position"], document["public_key"], dict(papers["files"])
        signatures = (str(kept["signature"]), str(kept["papers_signature"]))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        yield f"{name} was changed: it is no signed release any more."
        return
    if formats != FORMATS or position != kept.get("position") or set(kept) != KEYS:
        yield f"{name} was changed: it is no signed release any more."
    if not is_signed(public, texts[0], signatures[0]):
        yield f"{name}: the signature of the release does not fit what is signed."
    if document.get("record") != sha256(texts[2]):
        yield f"{name}: the release record was changed after it was signed."
    if papers.get("release") != sha256(texts[0]) or papers.get("public_key") != public:
        yield f"{name}: the papers are those of another release."
    if not is_signed(public, texts[1], signatures[1]):
        yield f"{name}: the signature of the papers does not fit."
    if key is not None and public != key:
        yield f"{name}: signed with the key {public}, not with {key}."
    yield from _place(name, document, lines)
    yield from _papers(name, files, members)


KEYS = {"position", "record", "document", "signature", "papers", "papers_signature"}


def _place(name: str, document: dict[str, Any], lines: list[dict[str, Any]]) -> Iterator[str]:
    """Hold the signed head against the journal."""
    position = document.get("position")
    if type(position) is not int or not 1 <= position <= len(lines):
        yield f"{name}: the entry at place {position}, over which it was signed, is not in the journal."
        return
    line = lines[position - 1]
    if line["hash"] != document.get("head"):
        yield f"{name}: the head that was signed is not that of entry {position}; the journal is another one."
    elif line["entry"].get("kind") != "release-signed" or line["entry"].get("by") != document.get("by"):
        yield f"{name}: entry {position} is not the release that was signed."


def _papers(name: str, files: dict[str, Any], members: dict[str, bytes]) -> Iterator[str]:
    """Hold the printed papers against the hashes that were signed."""
    number = name[len(FOLDER) :].partition(".")[0]
    for paper, expected in sorted(files.items()):
        own = f"{FOLDER}{number}-{paper}"
        if own not in members:
            yield f"{own} is missing, though it was signed."
        elif sha256(members[own]) != expected:
            yield f"{own} was changed after it was signed."


def unsigned(members: dict[str, bytes], lines: list[dict[str, Any]]) -> list[int]:
    """Give the places of releases in the journal for which no signature came along."""
    signed = {name[len(FOLDER) :].partition(".")[0] for name in members if name.endswith(".json")}
    found = (line["position"] for line in lines if line["entry"].get("kind") == "release-signed")
    return [position for position in found if str(position) not in signed]
