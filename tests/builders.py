"""A tiny journal writer for tests: say what happened, minute by minute, and ask what is found."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from lastbolt.finding import Finding
from lastbolt.journal import AnyEntry, entry_from, in_order
from lastbolt.report.verdict import judge, live_findings, states, verdicts
from lastbolt.state.fold import replay
from lastbolt.state.job import Job

from .replay.scenario_journal import Journal, moment

MACHINE = "the loader"
Mark = tuple[str, str, str]
SEVERITY = {"B!": ("stop", False), "B": ("stop", True), "L": ("decide", True), "I": ("note", True)}
MARKS = {value: mark for mark, value in SEVERITY.items()}


def mark(finding: Finding) -> str:
    """Write a severity as the practice does: B!, B, L or I."""
    return MARKS[finding.severity.value, finding.waivable]


def _moment(at: str | datetime) -> datetime:
    return moment(at) if isinstance(at, str) else at


class Told:
    """A job told entry by entry, one minute apart unless a moment such as "2 08:30" is given."""

    def __init__(
        self,
        *,
        level: int = 3,
        job: str = "job 1",
        machine: str = MACHINE,
        start: str | datetime = "1 08:00",
        title: str = "A job",
        **opened: Any,
    ) -> None:
        self.journal = Journal()
        self.job = job
        self.now = _moment(start)
        self.say("job-opened", after=0, machine=machine, title=title, level=level, **opened)

    def say(
        self,
        kind: str,
        *,
        at: str | datetime | None = None,
        after: float = 1,
        by: str = "Ana",
        job: str | None = None,
        **fields: Any,
    ) -> str:
        """Record one entry; give its id."""
        moves_on = at is None
        when = self.now + timedelta(minutes=after) if at is None else _moment(at)
        if moves_on or when > self.now:
            self.now = when
        return self.journal.add(kind, when, by=by, job=job or self.job, **fields)

    def told(self, *lines: tuple[str, dict[str, Any]]) -> Told:
        """Record several entries: kind and fields."""
        for kind, fields in lines:
            self.say(kind, **fields)
        return self

    @property
    def raws(self) -> list[dict[str, Any]]:
        return self.journal.entries

    @property
    def entries(self) -> list[AnyEntry]:
        return [entry_from(raw) for raw in self.raws]

    @property
    def state(self) -> Job:
        return replay(self.entries, self.job)

    def findings(self, check: str | None = None, *, asking: str = "release") -> list[Finding]:
        """Judge the job as of its last entry; only one check's findings when it is named."""
        jobs = states(in_order(self.entries))
        found = judge(jobs.pop(self.job), tuple(jobs.values()), asking=asking).findings
        return [f for f in found if check in (None, f.check)]

    def marks(self, check: str | None = None) -> set[tuple[str, str]] | set[Mark]:
        """Give what is found as (check, subject, mark), or (subject, mark) of one check."""
        found = self.findings(check)
        if check is None:
            return {(f.check, f.subject, mark(f)) for f in found}
        return {(f.subject, mark(f)) for f in found}

    def live(self, check: str) -> set[str]:
        """Name the subjects that a check spoke up about while entries came in."""
        return {f.subject for _, f in live_findings(self.entries, self.job) if f.check == check}


def marks_at_release(entries: list[AnyEntry], job: str) -> list[set[Mark]]:
    """Give the marks of each release request of a job, in order."""
    return [{(f.check, f.subject, mark(f)) for f in v.findings} for v in verdicts(entries, job)[:-1]]


Line = tuple[str, dict[str, Any]]


def e(kind: str, **fields: Any) -> Line:
    """Write one entry of a table: its kind and fields."""
    return kind, fields


def told(*lines: Line) -> Told:
    """Tell a job from a table; a leading `job-opened` says how it was opened."""
    own = bool(lines) and lines[0][0] == "job-opened" and "job" not in lines[0][1]
    return Told(**lines[0][1]).told(*lines[1:]) if own else Told().told(*lines)


def set_of(n: int, name: str = "LID", **fields: Any) -> Line:
    """Describe a set of n M8 bolts that hold a part of the same name."""
    return e("set-described", set=name, n=n, **({"type": "M8x1.25x30", "part": name} | fields))


def value_of(low: float = 20, high: float = 25, name: str = "LID", **fields: Any) -> Line:
    """Give a set a value from a maker's page."""
    return e(
        "spec-entered", set=name, min_nm=low, max_nm=high, **({"source": "maker's manual p. 12"} | fields)
    )


def out(n: int | None, to: str | None = "B1", name: str = "LID", **fields: Any) -> Line:
    """Take n fasteners out into a container."""
    return e("fasteners-removed", set=name, n=n, to=to, **fields)


def back(n: int | None, source: str = "B1", name: str = "LID", **fields: Any) -> Line:
    """Put n fasteners back from a container."""
    return e("fasteners-fitted", set=name, n=n, source=source, **fields)


def pulled(value: float | None = 22, name: str = "LID", **fields: Any) -> Line:
    """Tighten a set to a value."""
    return e("fasteners-tightened", set=name, value_nm=value, **fields)


def decided(check: str, subject: str, decision: str = "accept", **fields: Any) -> Line:
    """Give the lead's word on a finding."""
    return e(
        "finding-decided", by="Lee", role="lead", check=check, subject=subject, decision=decision,
        reason="a reason long enough", **fields,
    )  # fmt: skip


DEFERRED = {"limit": "2026-04-01T00:00:00+00:00", "barrier": "tag on the key", "second": "Ida"}
"""What makes a deferral sound: limit, barrier and a second name."""
