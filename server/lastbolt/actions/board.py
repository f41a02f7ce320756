"""The board: a line for each job, kept with what it depends on; only what changed is judged anew."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol

from ..report.board import Bare, BoardRow, board_row
from ..report.related import Footprint
from .check_set import check_set_hash
from .ports import KnownJob, LookUp
from .verify import Bench

SHAPE = 3
"""Goes up when what is kept of a job gets another shape, so that older texts are not read."""


KEPT_AT_ONCE = 50
Line = tuple[str, Footprint, str, BoardRow]
"""A job's head, what ties it to others, the text of all that it depends on, and its line."""


class KeptSummary(Protocol):
    """One job's line as it is kept: at which head, by which check set, and the rest as JSON."""

    @property
    def job(self) -> str: ...
    @property
    def head(self) -> str: ...
    @property
    def made(self) -> str: ...
    @property
    def text(self) -> str: ...


class SummaryRows(Protocol):
    """Keeps one text for each job; thrown away and made anew at will."""

    def all(self) -> Sequence[KeptSummary]:
        """Give everything that is kept."""

    def put(self, summaries: Iterable[tuple[str, str, str, str]]) -> None:
        """Keep job, head, check set and text, in place of those before."""


@dataclass(frozen=True, slots=True)
class Listed:
    """One job on the board: what the lists know, and its line; `older` where that is not judged anew yet."""

    known: KnownJob
    row: BoardRow
    older: bool = False


class Kept:
    """What was kept of jobs when the server ran before; nothing of it where the check set is another."""

    def __init__(self, rows: SummaryRows) -> None:
        self._rows = rows
        self._read: dict[str, tuple[str, dict[str, Any]]] | None = None
        self._any: dict[str, str] | None = None

    def footprints(self) -> Mapping[str, tuple[str, Footprint]]:
        """Give for each job the head at which it was kept, and what ties it to others."""
        return {job: (head, _footprint(job, said["ties"])) for job, (head, said) in self._all().items()}

    def line(self, job: str, tie: str) -> BoardRow | None:
        """Give a job's line, if all that it depends on is as it was."""
        found = self._all().get(job)
        return _row(job, found[1]["row"]) if found and found[1]["tie"] == tie else None

    def as_it_was(self, job: str) -> BoardRow | None:
        """Give a job's line as it was kept last, whatever has changed since, the check set too."""
        if self._any is None:
            shape = f"{SHAPE} "
            self._any = {one.job: one.text for one in self._rows.all() if one.made.startswith(shape)}
        text = self._any.get(job)
        return _row(job, json.loads(text)["row"]) if text else None

    def keep(self, lines: Iterable[tuple[str, Footprint, str, BoardRow]]) -> None:
        """Keep lines: each with the job's head, what ties it to others, and the text of all it depends on."""
        self._rows.put(
            (
                row.job,
                head,
                made_by(),
                json.dumps({"ties": _ties(tie), "tie": text, "row": _said(row)}),
            )
            for head, tie, text, row in lines
        )

    def _all(self) -> dict[str, tuple[str, dict[str, Any]]]:
        if self._read is None:
            own = made_by()
            kept = (one for one in self._rows.all() if one.made == own)
            self._read = {one.job: (one.head, json.loads(one.text)) for one in kept}
        return self._read


def made_by() -> str:
    """Name what makes the lines: the shape of what is kept, and the check set."""
    return f"{SHAPE} {check_set_hash()}"


class Board:
    """Gives the lines of all jobs."""

    def __init__(self, look_up: LookUp, bench: Bench, kept: Kept) -> None:
        self._look_up, self.bench, self._kept = look_up, bench, kept
        self._rows: dict[str, tuple[int, BoardRow]] = {}
        self._last: tuple[dict[str, int], tuple[Listed, ...]] = ({}, ())
        self.is_prepared = True
        """Whether a server that started has judged all jobs once; until then `at_once` waits for nothing."""

    def rows(self) -> tuple[Listed, ...]:
        """Give every job's line, the one last written to first, practice jobs too.

        While nothing changed it is the very same tuple.
        """
        changes = self.bench.changes()
        if self._last[0] == changes:
            return self._last[1]
        self._judge(changes)
        known = self._look_up.jobs()
        found = ((one, self._rows[one.job][1]) for one in known if one.job in self._rows)
        self._last = changes, tuple(Listed(one, row) for one, row in found)
        return self._last[1]

    def at_once(self) -> tuple[tuple[Listed, ...], int]:
        """Give every job's line without waiting for a server that starts and still judges; how many it owes.

        Until a job is judged its line is as it was kept last; a job of which nothing was kept has none yet.
        """
        if self.is_prepared:
            return self.rows(), 0
        found, owed = [], 0
        for one in self._look_up.jobs():
            judged = self._rows.get(one.job)
            owed += judged is None
            row = judged[1] if judged else self._kept.as_it_was(one.job)
            if row:
                found.append(Listed(one, row, older=judged is None))
        return tuple(found), owed

    def every_one(self) -> tuple[Listed, ...]:
        """Give every job's line as `at_once` does; only a job of which nothing was kept is judged first."""
        if self.is_prepared:
            return self.rows()
        changes = self.bench.changes()
        for one in self._look_up.jobs():
            if one.job in changes and one.job not in self._rows and not self._kept.as_it_was(one.job):
                self._row(one.job, changes[one.job])
        return self.at_once()[0]

    def prepare(self, is_enough: Callable[[], bool]) -> None:
        """Judge what has to be judged, so that the first board need not wait for it; until it is enough.

        What was judged is kept every few jobs, so that a server that stops loses little of it.
        """
        self._judge(self.bench.changes(), is_enough)

    def _judge(self, changes: Mapping[str, int], is_enough: Callable[[], bool] = lambda: False) -> None:
        stale = [job for job, number in changes.items() if self._rows.get(job, (-1,))[0] != number]
        fresh: list[Line] = []
        for job in stale:
            if is_enough():
                break
            if line := self._row(job, changes[job]):
                fresh.append(line)
            if len(fresh) == KEPT_AT_ONCE:
                self._kept.keep(fresh)
                fresh = []
        if fresh:
            self._kept.keep(fresh)

    def _row(self, job: str, number: int) -> Line | None:
        """Bring a job's line up to date; give it with what it depends on where it was judged just now."""
        tie, text = self.bench.tied(job)
        row = self._kept.line(job, text)
        fresh = None
        if row is None:
            view = self.bench.line(job)
            row = board_row(view.job, view.verdict)
            if view.head:  # what is said of a damaged job is not kept: a backup may mend it
                fresh = (view.head, tie, text, row)
        self._rows[job] = (number, row)
        return fresh


def _ties(tie: Footprint) -> dict[str, Any]:
    return {
        "shows": sorted(tie.shows),
        "asks": sorted(tie.asks),
        "wrenches": sorted(tie.wrenches),
        "pulled_with": sorted(tie.pulled_with),
        "is_open": tie.is_open,
    }


def _footprint(job: str, said: dict[str, Any]) -> Footprint:
    return Footprint(
        job,
        frozenset(said["shows"]),
        frozenset(said["asks"]),
        frozenset((wrench, facts) for wrench, facts in said["wrenches"]),
        frozenset(said["pulled_with"]),
        said["is_open"],
    )


def _said(row: BoardRow) -> dict[str, Any]:
    return {
        "about": [row.machine, row.title, row.level],
        "counts": [row.stop, row.decide, row.note],
        "not_checked": list(row.not_checked),
        "flags": [row.changed, row.practice],
        "times": [time.isoformat() if time else None for time in (row.opened, row.last)],
        "people": list(row.people),
        "bare": [row.bare.opening, row.bare.letter, row.bare.since.isoformat()] if row.bare else None,
    }


def _row(job: str, said: dict[str, Any]) -> BoardRow:
    opened, last = (datetime.fromisoformat(time) if time else None for time in said["times"])
    machine, title, level = said["about"]
    stop, decide, note = said["counts"]
    changed, practice = said["flags"]
    bare = said["bare"]
    return BoardRow(
        job=job,
        machine=machine,
        title=title,
        level=level,
        stop=stop,
        decide=decide,
        note=note,
        not_checked=tuple(said["not_checked"]),
        changed=changed,
        practice=practice,
        opened=opened,
        last=last,
        people=tuple(said["people"]),
        bare=Bare(bare[0], bare[1], datetime.fromisoformat(bare[2])) if bare else None,
    )
