"""The board: a line for each job, kept with the job's newest hash so that only what changed is judged anew."""

from __future__ import annotations

from dataclasses import dataclass

from ..report.board import BoardRow, board_row
from .ports import KnownJob, LookUp
from .verify import Bench


@dataclass(frozen=True, slots=True)
class Listed:
    """One job on the board: what the lists know, and its line."""

    known: KnownJob
    row: BoardRow


class Board:
    """Gives the lines of all jobs."""

    def __init__(self, look_up: LookUp, bench: Bench) -> None:
        self._look_up, self._bench = look_up, bench

    def rows(self) -> list[Listed]:
        """Give every job's line, the one last written to first."""
        found = []
        for known in self._look_up.jobs():
            view = self._bench.view(known.job)
            found.append(Listed(known, board_row(view.job, view.verdict)))
        return found
