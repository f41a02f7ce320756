"""Everything an answer about one job is made from, at one state of its journal; pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..actions.verify import View, entries_of
from ..finding import Finding
from ..journal import Happened, Line, effective, in_order
from ..state import Job
from . import gallery, wire


@dataclass(frozen=True, slots=True)
class Known:
    """One job as of its last line: what is stored, what happened, what is true, what is wrong."""

    job: str
    lines: tuple[Line, ...]
    state: Job
    findings: tuple[Finding, ...]
    not_checked: tuple[str, ...]
    by_id: dict[str, Happened]
    photos: dict[str, wire.Photo]
    picture_counts: dict[str, wire.PictureCount]


def known_from(view: View, lines: Sequence[Line], where_is: gallery.WhereIs) -> Known:
    """Put a job's verdict together with what its journal tells of photos and counts."""
    happened = in_order(entries_of(lines))
    counting = effective(happened)
    return Known(
        job=view.job.name,
        lines=tuple(lines),
        state=view.job,
        findings=view.verdict.findings,
        not_checked=view.verdict.not_checked,
        by_id={str(each.entry.id): each for each in happened},
        photos=gallery.placed(gallery.photos_from(counting), where_is),
        picture_counts=gallery.picture_counts_from(counting),
    )
