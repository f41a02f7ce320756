"""The route of the board: every job at one look."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter
from fastapi.responses import Response

from ..actions.board import Listed
from . import board_wire as wire
from .desk import AtDesk
from .wire import Counts

router = APIRouter(prefix="/api/board", tags=["board"])


class Written:
    """The board as it was last written out, for as long as no line and no age on it changes."""

    def __init__(self) -> None:
        self._last: tuple[tuple[Listed, ...], str, bytes] = ((), "", b"")

    def of(self, rows: tuple[Listed, ...], now: datetime, *, owed: int = 0) -> bytes:
        """Give the board as JSON; `at` is the minute of writing."""
        minute = f"{now:%Y-%m-%dT%H:%M}"
        if self._last[0] is not rows or self._last[1] != minute:
            board = wire.Board(at=now.replace(second=0, microsecond=0), judging=owed, jobs=_jobs(rows, now))
            self._last = rows, minute, board.model_dump_json().encode()
        return self._last[2]


WRITTEN = Written()


@router.get("", operation_id="getBoard", response_model=wire.Board)
def get_board(desk: AtDesk) -> Response:
    """Give all jobs: state, what is open by severity, age, who is on it, what has lain bare longest."""
    wired = desk.wired
    rows, owed = wired.board.at_once()
    return Response(WRITTEN.of(rows, wired.clock(), owed=owed), media_type="application/json")


def _jobs(rows: tuple[Listed, ...], now: datetime) -> list[wire.BoardJob]:
    """Give the lines, those left out that are only practice."""
    return [_job(each, now) for each in rows if not each.row.practice]


def _job(listed: Listed, now: datetime) -> wire.BoardJob:
    known, row = listed.known, listed.row
    bare = row.bare
    return wire.BoardJob(
        job=known.job,
        machine=row.machine,
        title=row.title,
        level=row.level,
        state="changed since its release" if row.changed else known.state,
        counts=Counts(stop=row.stop, decide=row.decide, note=row.note),
        not_checked=len(row.not_checked),
        opened=row.opened,
        last=row.last,
        age_days=(now - row.opened).days if row.opened else None,
        people=list(row.people),
        uncovered=wire.Uncovered(opening=bare.opening, opening_class=bare.letter, since=bare.since)
        if bare
        else None,
        entries=known.entries,
        older=listed.older,
    )
