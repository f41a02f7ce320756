"""The release of a job as files of its zip: record, signed documents, papers; and back into a shop."""

from __future__ import annotations

import json
from typing import Protocol

from ..journal import canonical
from ..paper.page import Print
from ..report.release_document import KeptRelease
from ..report.release_record import release_record
from ..report.sheet import sheet_text
from . import check_release
from .papers import draw_sheet, link_to, printed_at
from .ports import Shop
from .release_ports import Releases
from .release_source import source_of
from .verify import Bench


def release_members(
    shop: Shop, bench: Bench, releases: Releases, job: str, *, customer: bool = False
) -> dict[str, bytes]:
    """Give the record of a job as text, and all that was signed; for a customer the short one."""
    source = source_of(shop.journal, bench, job, named=not customer)
    sheet = release_record(source, customer=customer)
    found = {"record.txt": (sheet_text(sheet) + "\n").encode()}
    if customer:
        wish = Print("a4", link_to(job, None), printed_at(shop.clock()), {}, f"Release record, {job}")
        return {**found, "record.pdf": draw_sheet(shop.photos, sheet, wish)}
    for kept in releases.of(job):
        start = f"{check_release.FOLDER}{kept.position}"
        found[f"{start}.json"] = canonical(kept.as_json()) + b"\n"
        for name, sha256 in kept.files.items():
            found[f"{start}-{name}"] = releases.paper(sha256)
    return found


class Readable(Protocol):
    """An opened zip of a job."""

    names: list[str]

    def read(self, name: str) -> bytes:
        """Give a file's bytes."""


def take_releases(releases: Releases, job: str, archive: Readable) -> int:
    """Keep the signed releases of a zip that was checked already; give how many."""
    found = [
        name for name in archive.names if name.startswith(check_release.FOLDER) and name.endswith(".json")
    ]
    for name in found:
        kept = _kept(job, json.loads(archive.read(name)))
        number = name.removesuffix(".json")
        papers = {sha256: archive.read(f"{number}-{paper}") for paper, sha256 in kept.files.items()}
        releases.put(kept, papers)
    return len(found)


def _kept(job: str, said: dict[str, object]) -> KeptRelease:
    texts = {name: canonical(part).decode() for name, part in said.items() if isinstance(part, dict)}
    return KeptRelease(
        job,
        int(str(said["position"])),
        texts["record"],
        texts["document"],
        str(said["signature"]),
        texts["papers"],
        str(said["papers_signature"]),
    )
