"""The route of the board: every job at one look."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter

from ..actions.board import Listed
from . import board_wire as wire
from .desk import AtDesk
from .wire import Counts

router = APIRouter(prefix="/api/board", tags=["board"])


@router.get("", operation_id="getBoard")
def get_board(desk: AtDesk) -> wire.Board:
    """Give all jobs: state, what is open by severity, age, who is on it, what has lain bare longest."""
    now = desk.wired.clock()
    return wire.Board(at=now, jobs=[_job(listed, now) for listed in desk.wired.board.rows()])


def _job(listed: Listed, now: datetime) -> wire.BoardJob:
    known, row = listed.known, listed.row
    bare = row.bare
    return wire.BoardJob(
        job=known.job,
        machine=known.machine,
        title=known.title,
        level=known.level,
        state="changed since its release" if row.changed else known.state,
        counts=Counts(stop=row.stop, decide=row.decide, note=row.note),
        not_checked=row.not_checked,
        opened=row.opened,
        last=row.last,
        age_days=(now - row.opened).days if row.opened else None,
        people=list(row.people),
        uncovered=wire.Uncovered(opening=bare.opening, opening_class=bare.letter, since=bare.since)
        if bare
        else None,
        entries=known.entries,
    )
