"""A job as one file, out for a customer or another shop, and back in with its chain as it was sealed."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol
from uuid import UUID

from ..errors import BadInputError, LastboltError, StoreError, told
from ..journal import Line, Raw, canonical, entry_from, first_break
from ..report.manual import manual_text
from ..report.text import verdict_text
from ..report.verdict import as_json, verdicts
from ..said import said
from . import check_bundle, check_verdict
from .archive import JOURNAL, MANIFEST, SCRIPTS, Archive, NewArchive, new_archive, open_archive
from .check_set import check_set_zip
from .plain_pictures import plain_picture
from .ports import Photos, Shop
from .record import received_text
from .release_members import take_releases
from .release_ports import Releases
from .require import require_job
from .voice import voice_notes
from .without_names import without_names

CHAIN = "check_bundle.py re-computes the chain of hashes up to the head."
CUSTOMERS_CHAIN = (
    "This is a customer's version: names of people, and all facts in the photos but which way is up, were "
    "left out, so the chain of hashes cannot be re-computed from it; the shop's whole version can show it."
)
VERDICT = "The verdict is of this job by itself: lastbolt replay journal.jsonl gives it anew."
_RECEIVED = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,9})?Z")
_BEGINNINGS = (
    (b"\xff\xd8\xff", "jpg"), (b"\x89PNG\r\n\x1a\n", "png"), (b"II*\0", "tif"), (b"MM\0*", "tif"),
    (b"GIF8", "gif"), (b"BM", "bmp"), (b"RIFF", "webp"),
)  # fmt: skip


class SealedJournal(Protocol):
    """Takes whole lines, sealed elsewhere."""

    def missing(self, job: str, lines: Sequence[Line]) -> int:
        """Tell how many of the lines are not here yet; refuse those that differ from what is here."""

    def put(self, job: str, lines: Sequence[Line]) -> int:
        """Append those that are not here, as they are, and tell how many."""


@dataclass(frozen=True, slots=True)
class Moved:
    """What went out or came in: how many entries and photos, and which photos did not come along and why."""

    job: str
    entries: int
    photos: int
    left_out: tuple[Mapping[str, str], ...] = ()
    head: str = ""

    def sentences(self) -> list[str]:
        """Say which photos did not come along."""
        return [f"Left out: the photo {left['sha256']}, {left['why']}." for left in self.left_out]


def export_job(
    shop: Shop, job: str, path: Path, *, customer: bool = False, more: Mapping[str, bytes] | None = None
) -> Moved:
    """Write a job into one zip: journal, photos, verdict, manual of the checks, and scripts to check it all.

    `more` are further files by name: the release record, and what was signed.

    Raises:
        NotFoundError: no entry names that job.
        ConflictError: the file is here already.
        StoreError: the job's own chain is broken; the first entry that does not fit is named.
    """
    require_job(shop.look_up, job)
    lines = shop.journal.lines(job)
    if broken := first_break(lines):
        raise StoreError(
            said(
                "the record of {job} does not fit: {why} (id {entry_id}); put back a backup first",
                job=job,
                why=broken.why,
                entry_id=broken.entry_id,
            )
        )
    with new_archive(path) as out:
        renamed, left_out = _add_photos(out, shop.photos, lines, customer)
        entries = [line.entry for line in lines]
        if customer:
            entries = [_renamed(entry, renamed) for entry in without_names(entries)]
        _add_texts(out, lines, entries, customer)
        for name, data in (more or {}).items():
            out.add(name, data)
        named, together = str(entries[0]["job"]).strip(), len(set(renamed.values()))
        moved = Moved(named, len(lines), together, left_out, lines[-1].hash)
        out.add(MANIFEST, _manifest(moved, out.members, received_text(shop.clock()), customer))
    return moved


def import_job(shop: Shop, sealed: SealedJournal, path: Path, *, releases: Releases | None = None) -> Moved:
    """Take in an exported job, all of it or nothing; its lines keep place, time of arrival and hash.

    Taking it in twice changes nothing; a longer version of a job that is here adds what is new.

    Raises:
        BadInputError: the file is unsound; its first fault is named, nothing was taken.
        ConflictError: an entry stands here with other content; nothing was taken.
    """
    with open_archive(path, largest_photo=shop.limits.largest_photo) as archive:
        manifest = _checked(archive)
        lines = _sound_lines(archive.read(JOURNAL), manifest["job"])
        photos = [name for name in archive.names if name.startswith("photos/")]
        _refuse_unnamed(photos, lines)
        sealed.missing(manifest["job"], lines)
        new_photos = 0
        for name in photos:
            if shop.photos.state(_sha256_of(name)) != "here":
                shop.photos.put(archive.read(name))
                new_photos += 1
        new = sealed.put(manifest["job"], lines)
        if releases is not None:
            take_releases(releases, manifest["job"], archive)
    return Moved(manifest["job"], new, new_photos, tuple(manifest["left_out"]), lines[-1].hash)


def photo_hashes(lines: Iterable[Line]) -> list[str]:
    """Give the hashes of the photos and voice notes that lines name, each once, in their order."""
    own = list(lines)
    added = (line.entry for line in own if line.entry.get("kind") == "photo-added")
    photos = [str(raw["sha256"]) for raw in added if raw.get("sha256")]
    return list(dict.fromkeys([*photos, *voice_notes(own)]))


def _add_photos(
    out: NewArchive, photos: Photos, lines: Sequence[Line], customer: bool
) -> tuple[dict[str, str], tuple[Mapping[str, str], ...]]:
    """Add the photos; give the hash that each has in the zip, by its hash in the journal."""
    renamed, left_out = {}, []
    for sha256 in photo_hashes(lines):
        state = photos.state(sha256)
        if state != "here":
            why = "its bytes never came here" if state == "missing" else "its bytes were damaged on disk"
            left_out.append({"sha256": sha256, "why": why})
            continue
        photo: bytes | None = photos.original(sha256)
        photo = plain_picture(photo) if customer and photo else photo
        if photo is None:
            left_out.append({"sha256": sha256, "why": "where it was taken cannot be cut out of its kind"})
            continue
        renamed[sha256] = hashlib.sha256(photo).hexdigest()
        name = f"photos/{renamed[sha256]}.{_ending(photo)}"
        if name not in out.members:
            out.add(name, photo)
    return renamed, tuple(left_out)


def _add_texts(out: NewArchive, lines: Sequence[Line], entries: Sequence[Raw], customer: bool) -> None:
    rows: list[Raw] = [line.as_json() for line in lines]
    if customer:
        told = zip(rows, entries, strict=True)
        rows = [{"position": r["position"], "received": r["received"], "entry": entry} for r, entry in told]
    out.add(JOURNAL, b"".join(canonical(row) + b"\n" for row in rows))
    found = verdicts([entry_from(entry) for entry in entries])
    out.add("verdict.json", _pretty(as_json(found)))
    out.add("verdict.txt", ("\n\n".join(verdict_text(verdict) for verdict in found) + "\n").encode())
    out.add("checks.md", (manual_text() + "\n").encode())
    out.add(check_verdict.CHECKS, check_set_zip())
    for script in SCRIPTS:
        out.add(script, Path(__file__).with_name(script).read_bytes())


def _manifest(moved: Moved, members: Mapping[str, Any], made: str, customer: bool) -> bytes:
    said = {
        "format": check_bundle.FORMAT,
        "format_version": check_bundle.VERSION,
        "job": moved.job,
        "made": made,
        "customer": customer,
        "head": moved.head,
        "chain": CUSTOMERS_CHAIN if customer else CHAIN,
        "verdict": VERDICT,
        "counts": {"entries": moved.entries, "photos": moved.photos, "left_out": len(moved.left_out)},
        "members": dict(members),
        "left_out": [dict(left) for left in moved.left_out],
    }
    return check_bundle.manifest_bytes({**said, "sha256": check_bundle.manifest_seal(said)})


def _checked(archive: Archive) -> Mapping[str, Any]:
    bundle = check_bundle.Bundle(archive.names, archive.read)
    try:
        manifest = check_bundle.check_manifest(bundle)
        if manifest.get("customer"):
            raise BadInputError(
                "this is a customer's version, whose chain was left out; ask the shop for the whole version"
            )
        check_bundle.check(bundle)
    except check_bundle.MisfitError as misfit:
        raise BadInputError(said("nothing was taken: {misfit}", misfit=misfit)) from misfit
    unlisted = set(archive.names) - set(manifest["members"]) - {MANIFEST}
    if unlisted:
        raise BadInputError(
            said("nothing was taken: the manifest does not list {name}", name=sorted(unlisted)[0])
        )
    return manifest


def _sound_lines(journal: bytes, job: str) -> list[Line]:
    lines: list[Line] = []
    for number, text in enumerate(journal.split(b"\n")[:-1], start=1):
        raw = json.loads(text)
        try:
            entry_from(raw["entry"])
        except (LastboltError, RecursionError) as error:
            raise BadInputError(
                said("nothing was taken: entry {number}: {error}", number=number, error=told(error))
            ) from error
        if not isinstance(raw["received"], str) or not _RECEIVED.fullmatch(raw["received"]):
            raise BadInputError(
                said("nothing was taken: entry {number} has no time of arrival in UTC", number=number)
            )
        lines.append(Line(job, raw["position"], raw["received"], raw["prev"], raw["hash"], raw["entry"]))
    if not lines:
        raise BadInputError("nothing was taken: the journal holds no entry")
    if len({UUID(line.entry["id"]) for line in lines}) != len(lines):
        raise BadInputError("nothing was taken: the journal holds two entries of one id")
    if broken := first_break(lines):
        raise BadInputError(
            said("nothing was taken: {why} (id {entry_id})", why=broken.why, entry_id=broken.entry_id)
        )
    return lines


def _refuse_unnamed(photos: Iterable[str], lines: Sequence[Line]) -> None:
    named = set(photo_hashes(lines))
    for name in photos:
        if _sha256_of(name) not in named:
            raise BadInputError(said("nothing was taken: no entry names {name}", name=name))


def _sha256_of(name: str) -> str:
    return name.removeprefix("photos/").partition(".")[0]


def _renamed(value: Any, names: Mapping[str, str]) -> Any:
    """Put other hashes in place of photos' own, wherever a text is one."""
    walk: Callable[[Any], Any] = lambda inner: _renamed(inner, names)  # noqa: E731
    if isinstance(value, dict):
        return {key: walk(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [walk(inner) for inner in value]
    return names.get(value, value) if isinstance(value, str) else value


def _ending(photo: bytes) -> str:
    if photo[4:8] == b"ftyp":
        return "heic"
    return next((ending for beginning, ending in _BEGINNINGS if photo.startswith(beginning)), "bin")


def _pretty(value: Any) -> bytes:
    return (json.dumps(value, indent=2, ensure_ascii=False) + "\n").encode()
