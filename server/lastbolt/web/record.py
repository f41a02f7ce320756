"""Routes of the release record and of the audit: as blocks, as text, as the paper that was signed."""

from __future__ import annotations

from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, Query
from fastapi.responses import PlainTextResponse, Response

from ..actions.audit import audit
from ..actions.audit_release import audit_releases
from ..actions.print_record import record_paper, record_sheet
from ..errors import NotFoundError
from ..journal import canonical
from ..keys.signing import is_signed
from ..report.sheet import Block, sheet_text
from ..said import said
from . import release_wire as wire
from .desk import AtDesk
from .release_room import AtRelease

router = APIRouter(prefix="/api/jobs", tags=["record"])
Paper = Annotated[Literal["a4", "letter"], Query(description="what it is printed on")]
Customer = Annotated[bool, Query(description="the customer's shorter version, without names")]


@router.get("/{job:path}/record", operation_id="getRecord")
def get_record(job: str, room: AtRelease, customer: Customer = False) -> wire.Record:
    """Give the release record as it would be printed now, signed or not."""
    sheet = record_sheet(room, job, customer=customer)
    return wire.Record(
        heading=sheet.heading, under=list(sheet.under), blocks=[_block(block) for block in sheet.blocks]
    )


def _block(block: Block) -> wire.RecordBlock:
    return wire.RecordBlock(
        number=block.number,
        title=block.title,
        lines=[wire.RecordLine(text=line.text, ticked=line.ticked) for line in block.lines],
        tables=[
            wire.RecordTable(heads=list(table.heads), rows=[list(row) for row in table.rows])
            for table in block.tables
        ],
        pictures=[wire.RecordPicture(sha256=p.sha256, caption=p.caption) for p in block.pictures],
        nothing=block.nothing if block.is_empty else "",
    )


@router.get("/{job:path}/record.txt", operation_id="getRecordText", response_class=PlainTextResponse)
def get_record_text(job: str, room: AtRelease, customer: Customer = False) -> str:
    """Give the release record as plain text."""
    return sheet_text(record_sheet(room, job, customer=customer)) + "\n"


@router.get("/{job:path}/record.pdf", operation_id="getRecordPaper", response_class=Response)
def get_record_paper(job: str, room: AtRelease, paper: Paper = "a4", customer: Customer = False) -> Response:
    """Give the paper that was signed, byte for byte; a job that is not released gets one that says so."""
    name = f"{job} record{' for the customer' if customer else ''}.pdf"
    return pdf(record_paper(room, job, paper, customer=customer), name)


@router.get("/{job:path}/release.json", operation_id="getSignedRelease", response_class=Response)
def get_signed(job: str, room: AtRelease) -> Response:
    """Give what was signed at the last release: documents, signatures, record, in canonical JSON."""
    kept = room.releases.of(job)
    if not kept:
        raise NotFoundError(said("{job} has no signed release here.", job=job))
    return Response(canonical(kept[-1].as_json()), media_type="application/json")


@router.get("/{job:path}/audit", operation_id="getAudit")
def get_audit(job: str, desk: AtDesk) -> wire.Audit:
    """Look whether journal, photos and what was signed are as they were; names what does not fit."""
    wired = desk.wired
    found = audit(wired.shop, job)
    signed = audit_releases(wired.journal, wired.releases, is_signed, job, own_key=wired.signer.public)
    faults = [*([] if found.is_whole else found.sentences()), *signed.faults]
    return wire.Audit(
        whole=not faults,
        faults=faults,
        said=[*(found.sentences() if found.is_whole else []), *signed.said],
        entries=found.entries,
        photos=found.photos,
        head=found.head,
    )


def pdf(data: bytes, name: str) -> Response:
    """Answer with a PDF to be shown or saved under a name."""
    headers = {"content-disposition": f"inline; filename*=UTF-8''{quote(name)}", "cache-control": "no-store"}
    return Response(data, media_type="application/pdf", headers=headers)
