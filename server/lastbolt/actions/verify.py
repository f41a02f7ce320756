"""Load journals, fold, check: the verdict of a stored job or of a file, and the state that screens show."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from ..errors import BadInputError, NotFoundError
from ..journal import AnyEntry, Happened, Line, entry_from, in_order, raws_from_lines
from ..journal.order import effective
from ..report.verdict import Verdict, judge, verdicts
from ..state.fold import fold
from ..state.job import Job


class Journals(Protocol):
    """What verifying needs of a store."""

    def heads(self) -> Mapping[str, str]:
        """Give every job's newest hash; it changes with every entry."""

    def lines(self, job: str) -> Sequence[Line]:
        """Give a job's stored lines in the order of their positions."""


@dataclass(frozen=True, slots=True)
class View:
    """A job as screens show it: its state, its verdict now, and how many entries stand behind it."""

    job: Job
    verdict: Verdict
    head: str


class Bench:
    """Keeps folded jobs and their verdicts while no journal changes, so that asking twice costs once."""

    def __init__(self, journals: Journals) -> None:
        self._journals = journals
        self._folded: dict[str, tuple[str, Job]] = {}
        self._judged: dict[str, tuple[Mapping[str, str], View]] = {}

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
        heads = self._journals.heads()
        kept = self._judged.get(job_name)
        if kept is None or kept[0] != heads:
            job = self._state_at(job_name, heads)
            view = View(job, judge(job, self._others_at(job_name, heads)), heads[job_name])
            kept = self._judged[job_name] = (heads, view)
        return kept[1]

    def others(self, job_name: str) -> tuple[Job, ...]:
        """Give the states of all other jobs of the shop, but for those that are only practice."""
        return self._others_at(job_name, self._journals.heads())

    def timeline(self, job_name: str) -> tuple[Happened, ...]:
        """Give the entries of a job that count, each with its time, in the order of what happened."""
        return tuple(effective(in_order(entries_of(self._journals.lines(job_name)))))

    def entries(self, job_name: str) -> tuple[AnyEntry, ...]:
        """Give the entries of a job that count, in the order of what happened."""
        return tuple(h.entry for h in self.timeline(job_name))

    def _others_at(self, job_name: str, heads: Mapping[str, str]) -> tuple[Job, ...]:
        others = (self._state_at(name, heads) for name in heads if name != job_name)
        return tuple(job for job in others if not job.is_practice)

    def _state_at(self, job_name: str, heads: Mapping[str, str]) -> Job:
        head = heads.get(job_name)
        if head is None:
            raise NotFoundError(f"there is no job {job_name[:120]!r} here; `lastbolt jobs` lists them")
        kept = self._folded.get(job_name)
        if kept is None or kept[0] != head:
            kept = self._folded[job_name] = (head, fold(self.timeline(job_name), job_name))
        return kept[1]


def entries_of(lines: Iterable[Line]) -> list[AnyEntry]:
    """Read stored lines as entries."""
    return [entry_from(line.entry) for line in lines]


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
            raise BadInputError(f"entry {number}: {error}") from error
    if not entries:
        raise BadInputError("there is no entry in this file; each line holds one as a JSON object")
    return verdicts(entries, job_name)


def exit_status(verdict: Verdict) -> int:
    """Give 0 where nothing is on the list, 1 where something stops or needs a decision."""
    return 0 if verdict.is_clear else 1
