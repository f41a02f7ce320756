"""Asking a shop twice costs once, and what changes in one job is seen from the others."""

from __future__ import annotations

import pytest
from tests.replay.scenario_journal import DAY_ONE, Journal

from lastbolt.actions.record import record
from lastbolt.actions.verify import Bench
from lastbolt.errors import NotFoundError
from lastbolt.settings import settings_from
from lastbolt.wiring import wire


class Counting:
    """A journal that counts how often its lines are read."""

    def __init__(self, journal):
        self.journal, self.read = journal, 0

    def heads(self):
        return self.journal.heads()

    def lines(self, job):
        self.read += 1
        return self.journal.lines(job)


@pytest.fixture
def wired(tmp_path):
    opened = wire(settings_from({"LASTBOLT_DATA": str(tmp_path)}))
    yield opened
    opened.close()


def opened(*jobs):
    """Open jobs on one machine; give the entries of each."""
    out = Journal()
    for job in jobs:
        title = f"Work of {job}"
        out.add("job-opened", DAY_ONE, job=job, machine="the loader", title=title, device=f"desk {job}")
    return [[entry] for entry in out.entries]


def test_an_unchanged_shop_is_read_once(wired):
    for entries in opened("job 1", "job 2"):
        record(wired.journal, wired.clock, entries)
    counting = Counting(wired.journal)
    bench = Bench(counting)

    first, second = bench.view("job 1"), bench.view("job 1")

    assert first is second
    assert counting.read == 2


def test_another_job_opened_on_the_machine_is_seen_at_once(wired):
    here, there = opened("job 1", "job 2")
    record(wired.journal, wired.clock, here)
    assert wired.bench.view("job 1").verdict.is_clear

    record(wired.journal, wired.clock, there)

    assert [f.key for f in wired.bench.view("job 1").verdict.findings] == [
        "other-job-open-on-the-machine/job 2"
    ]


def test_a_job_that_nobody_opened_is_not_found(wired):
    with pytest.raises(NotFoundError, match="there is no job 'nowhere' here"):
        wired.bench.view("nowhere")
