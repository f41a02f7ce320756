"""Load journals, fold, check: the verdict of a stored job or of a file, and the state that screens show."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from threading import RLock
from typing import Protocol

from ..errors import BadInputError, DamagedError, told
from ..finding import Finding, Severity
from ..journal import AnyEntry, Happened, Line, entry_from, in_order, raws_from_lines
from ..journal.order import effective
from ..report.related import Footprint, Neighbours, footprint
from ..report.verdict import END, Verdict, judge, verdicts
from ..said import said
from ..state.fold import fold
from ..state.job import Job
from ..state.later_look import days_between, was_elsewhere
from .require import no_such_job


class Journals(Protocol):
    """What verifying needs of a store."""

    def heads(self) -> Mapping[str, str]:
        """Give every job's newest hash; it changes with every entry."""

    def lines(self, job: str) -> Sequence[Line]:
        """Give a job's stored lines in the order of their positions."""


class Summaries(Protocol):
    """What was kept of jobs as they were at a head."""

    def footprints(self) -> Mapping[str, tuple[str, Footprint]]:
        """Give for each job the head at which it was kept, and what ties it to others."""


@dataclass(frozen=True, slots=True)
class View:
    """A job as screens show it: its state, its verdict now, and how many entries stand behind it."""

    job: Job
    verdict: Verdict
    head: str


class Bench:
    """Keeps folded jobs and their verdicts while nothing changes that they depend on.

    A verdict depends on the job itself and on those others that `report/related.py` names; of the others only
    what ties jobs together is kept, from `summaries` where it was kept before.
    """

    def __init__(self, journals: Journals, summaries: Summaries | None = None) -> None:
        self._journals = journals
        self._summaries = summaries
        self._folded: dict[str, tuple[str, Job]] = {}
        self._judged: dict[str, tuple[int, View]] = {}
        self._near = Neighbours()
        self._at: dict[str, str] = {}
        self._changes: defaultdict[str, int] = defaultdict(int)
        self._one_at_a_time = RLock()

    def state(self, job_name: str) -> Job:
        """Give the state of a job.

        Raises:
            NotFoundError: no entry names that job.
        """
        return self._state_at(job_name, self._journals.heads())

    def view(self, job_name: str) -> View:
        """Give a job's state and verdict, beside all other jobs of the shop.

        Raises:
            NotFoundError: no entry names that job.
        """
        with self._one_at_a_time:
            heads = self._journals.heads()
            job = self._state_at(job_name, heads)
            self._refresh(heads)
            changes = self._changes[job_name]
            kept = self._judged.get(job_name)
            if kept is None or kept[0] != changes:
                view = View(job, judge(job, self._witnesses(job, heads)), heads[job_name])
                kept = self._judged[job_name] = (changes, view)
            return kept[1]

    def line(self, job_name: str) -> View:
        """Give a job for a list: a damaged one says so in its own place, and the others go on.

        Raises:
            NotFoundError: no entry names that job.
        """
        try:
            return self.view(job_name)
        except DamagedError as error:
            return _damaged(job_name, error)

    def changes(self) -> dict[str, int]:
        """Give a number for each job, that goes up whenever its verdict may have become another."""
        with self._one_at_a_time:
            self._refresh(self._journals.heads())
            return {name: self._changes[name] for name in self._at}

    def tied(self, job_name: str) -> tuple[Footprint, str]:
        """Give what ties a job to others, and one text for all that its verdict depends on."""
        with self._one_at_a_time:
            own = self._near.prints[job_name]
            whole, facts = self._near.of(own)
            said = repr(([(name, self._at[name]) for name in (job_name, *whole)], facts))
            return own, sha256(said.encode()).hexdigest()

    def related(self, job_name: str) -> tuple[Job, ...]:
        """Give the states of those other jobs that a verdict of this one depends on.

        Raises:
            NotFoundError: no entry names that job.
        """
        return self.beside(self.state(job_name))

    def beside(self, job: Job) -> tuple[Job, ...]:
        """Give the states of those other jobs that a verdict of this one depends on, folded as it may be."""
        with self._one_at_a_time:
            heads = self._journals.heads()
            self._refresh(heads)
            return self._witnesses(job, heads)

    def open_beside(self, job_name: str) -> tuple[Job, ...]:
        """Give the states of the shop's other jobs that are neither released nor ended, but for practice."""
        with self._one_at_a_time:
            heads = self._journals.heads()
            self._refresh(heads)
            return self._states((n for n in heads if n != job_name and self._near.prints[n].is_open), heads)

    def was_elsewhere(self, job_name: str, person: str, done: datetime, look: datetime) -> bool:
        """Tell whether somebody worked on another job between two moments; practice is no job."""
        with self._one_at_a_time:
            heads = self._journals.heads()
            self._refresh(heads)
            names = self._near.at_work(person, days_between(done, look)) - {job_name}
            return was_elsewhere(self._states(sorted(names), heads), person, done, look)

    def _witnesses(self, job: Job, heads: Mapping[str, str]) -> tuple[Job, ...]:
        return self._states(self._near.witnesses(footprint(job)), heads)

    def _states(self, names: Iterable[str], heads: Mapping[str, str]) -> tuple[Job, ...]:
        found = []
        for name in names:
            with suppress(DamagedError):  # a damaged job says so at its own place; the others go on
                found.append(self._state_at(name, heads))
        return tuple(found)

    def _tie(self, name: str, heads: Mapping[str, str]) -> Footprint:
        """Give what ties a job to others; a damaged one is tied to none."""
        try:
            return footprint(self._state_at(name, heads))
        except DamagedError:
            return Footprint(name)

    def _refresh(self, heads: Mapping[str, str]) -> None:
        """Bring what ties jobs together up to date with the journals."""
        changed = [name for name, head in heads.items() if self._at.get(name) != head]
        first = self._summaries.footprints() if self._summaries and not self._at and len(changed) > 1 else {}
        for name in changed:
            head, known = heads[name], first.get(name)
            tie = known[1] if known and known[0] == head else self._tie(name, heads)
            self._at[name] = head
            for other in self._near.put(tie):
                self._changes[other] += 1

    def others(self, job_name: str) -> tuple[Job, ...]:
        """Give the states of all other jobs but practice; all are folded, for a question asked once."""
        heads = self._journals.heads()
        states = self._states((name for name in heads if name != job_name), heads)
        return tuple(job for job in states if not job.is_practice)

    def timeline(self, job_name: str) -> tuple[Happened, ...]:
        """Give the entries of a job that count, each with its time, in the order of what happened."""
        return tuple(effective(in_order(entries_of(self._journals.lines(job_name)))))

    def entries(self, job_name: str) -> tuple[AnyEntry, ...]:
        """Give the entries of a job that count, in the order of what happened."""
        return tuple(h.entry for h in self.timeline(job_name))

    def _state_at(self, job_name: str, heads: Mapping[str, str]) -> Job:
        head = heads.get(job_name)
        if head is None:
            raise no_such_job(job_name)
        kept = self._folded.get(job_name)
        if kept is None or kept[0] != head:
            kept = self._folded[job_name] = (head, fold(self.timeline(job_name), job_name))
        return kept[1]


def _damaged(job_name: str, error: DamagedError) -> View:
    to_do = "Look with lastbolt audit, then put back the last backup."
    finding = Finding("record-damaged", Severity.STOP, job_name, f"{error}.", to_do, waivable=False)
    return View(fold((), job_name), Verdict(job_name, END, None, (finding,), ()), "")


def entries_of(lines: Iterable[Line]) -> list[AnyEntry]:
    """Read stored lines as entries.

    Raises:
        DamagedError: names the first line that is not what was recorded.
    """
    found: list[AnyEntry] = []
    for line in lines:
        try:
            found.append(entry_from(line.entry))
        except BadInputError as error:
            raise DamagedError(
                said(
                    "entry {position} of the job {job} is not what was recorded ({error}); look with "
                    "lastbolt audit, then put back the last backup",
                    position=line.position,
                    job=repr(line.job),
                    error=told(error),
                )
            ) from error
    return found


def replay_lines(lines: Iterable[str], job_name: str | None = None) -> tuple[Verdict, ...]:
    """Judge a journal from JSON Lines, without a store.

    Raises:
        BadInputError: names the first line that is no entry.
    """
    entries: list[AnyEntry] = []
    for number, raw in enumerate(raws_from_lines(lines), start=1):
        try:
            entries.append(entry_from(raw))
        except BadInputError as error:
            raise BadInputError(said("entry {number}: {error}", number=number, error=told(error))) from error
    if not entries:
        raise BadInputError("there is no entry in this file; each line holds one as a JSON object")
    return verdicts(entries, job_name)


def exit_status(verdict: Verdict) -> int:
    """Give 0 where nothing is on the list, 1 where something stops or needs a decision."""
    return 0 if verdict.is_clear else 1
