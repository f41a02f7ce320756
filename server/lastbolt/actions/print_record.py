"""The release record of a job: as plain records, and on paper; what was signed comes as it was signed."""

from __future__ import annotations

from ..paper.page import Paper, Print
from ..report.release_record import release_record
from ..report.sheet import Sheet
from .papers import draw_sheet, link_to, printed_at
from .release import ReleaseRoom
from .release_source import source_of
from .require import require_job


def record_sheet(room: ReleaseRoom, job: str, *, customer: bool = False) -> Sheet:
    """Write the record of a job as it stands now.

    Raises:
        NotFoundError: no entry names that job.
    """
    require_job(room.shop.look_up, job)
    source = source_of(room.shop.journal, room.bench, job, public_key=room.signer.public, named=not customer)
    return release_record(source, customer=customer)


def record_paper(room: ReleaseRoom, job: str, paper: Paper, *, customer: bool = False) -> bytes:
    """Give the record as PDF: the paper that was signed while it stands, else one of how it stands now.

    Raises:
        NotFoundError: no entry names that job.
    """
    require_job(room.shop.look_up, job)
    state = room.bench.state(job)
    kept = room.releases.of(job)
    stands = bool(kept) and state.released is not None and state.changed_after_release is None
    if stands and not customer:
        return room.releases.paper(kept[-1].files[f"record-{paper}.pdf"])
    sheet = record_sheet(room, job, customer=customer)
    wish = Print(
        paper, link_to(job, room.address), printed_at(room.shop.clock()), {}, f"Release record, {job}"
    )
    return draw_sheet(room.shop.photos, sheet, wish)
