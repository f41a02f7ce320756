"""Real journals for the tests: the acceptance scenarios up to a moment, or a few entries of one's own."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from tests.replay.scenario_journal import DAY_ONE, SCENARIOS, Journal, journal_of, moment

from lastbolt.journal import AnyEntry, entry_from
from lastbolt.journal.order import effective, in_order
from lastbolt.report.verdict import Verdict, judge, states
from lastbolt.state.fold import fold
from lastbolt.state.job import Job

BY_ID = {scenario["id"]: scenario for scenario in SCENARIOS}


def scenario(name: str, until: str | None = None, devices: int = 1) -> list[AnyEntry]:
    """Give a scenario's entries, up to and with those of a moment such as "1 09:15"."""
    entries = [entry_from(raw) for raw in journal_of(BY_ID[name], devices)]
    return entries if until is None else [e for e in entries if e.at <= moment(until)]


def jobs_of(entries: list[AnyEntry]) -> dict[str, Job]:
    return states(in_order(entries))


def job_of(entries: list[AnyEntry], name: str = "job 1") -> Job:
    return jobs_of(entries)[name]


def verdict_of(entries: list[AnyEntry], name: str = "job 1", asking: str = "release") -> Verdict:
    jobs = jobs_of(entries)
    return judge(jobs.pop(name), tuple(jobs.values()), asking=asking)


class Written:
    """A journal written entry by entry, one minute apart unless said."""

    def __init__(self, *, job: str = "job 1", level: int = 3, machine: str = "the launch") -> None:
        self.journal = Journal()
        self.job = job
        self.minute = 0
        self.add("job-opened", machine=machine, title="A job", level=level)

    def add(self, kind: str, *, after: float = 1, **fields: Any) -> Written:
        self.minute += after
        self.journal.add(kind, self.now, job=self.job, **fields)
        return self

    @property
    def now(self) -> datetime:
        return DAY_ONE + timedelta(hours=8, minutes=self.minute)

    @property
    def entries(self) -> list[AnyEntry]:
        return [entry_from(raw) for raw in self.journal.entries]

    @property
    def state(self) -> Job:
        return fold(effective(in_order(self.entries)), self.job)

    @property
    def verdict(self) -> Verdict:
        return judge(self.state, ())
