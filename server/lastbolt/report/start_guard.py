"""The start guard: what must be cleared before something is turned or started (practice 4.4)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from .. import checks
from ..finding import Case, Finding, pieces
from ..said import said
from ..state.job import Job

NOTHING_ALL = "Nothing on the list. Your eyes decide."
NOTHING_WITH = "Nothing on the list, {checks} not run at this level. Your eyes decide."
CLEAR_ALL = "DO NOT START: {things} to clear first."
CLEAR_WITH = "DO NOT START: {things} to clear first, {checks} not run at this level."
CAUTIONS = (
    "Hands, hair, sleeves and people clear.",
    "Nothing on the list does not mean that nothing is wrong: only what was recorded can be on it.",
)
DRAINED = "Hang the DO NOT START tag on the key or starter, where nobody can miss it."


@dataclass(frozen=True, slots=True)
class StartGuard:
    """What stands against a start, worst first, and the cautions with it; there is no green tick."""

    job: str
    time: datetime | None
    findings: tuple[Finding, ...]
    not_checked: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def headline(self) -> str:
        """Say in words how it stands.

        >>> StartGuard("job 1", None, (), (), ()).headline
        'Nothing on the list. Your eyes decide.'
        """
        n = len(self.findings)
        missed = len(self.not_checked)
        with_missed, whole = (CLEAR_WITH, CLEAR_ALL) if n else (NOTHING_WITH, NOTHING_ALL)
        form = with_missed if missed else whole
        return said(form, things=pieces(n, "thing"), checks=pieces(missed, "check"))


def start_guard(job: Job, others: Iterable[Job] = ()) -> StartGuard:
    """Ask what stands against turning or starting the machine now, in this job and its other open jobs."""
    found = checks.run(Case(job, tuple(others), asking="start", at=job.now))
    missed = tuple(name for name in checks.not_checked(job) if name in checks.START)
    drained = any(finding.check == "fluid-not-back" for finding in found)
    off = [name for name, part in job.parts.items() if not part.on]
    more = ((DRAINED,) if drained else ()) + (
        (said("Off by the record: {parts}.", parts=", ".join(sorted(off))),) if off else ()
    )
    return StartGuard(job.name, job.now, found, missed, CAUTIONS + more)


def start_text(guard: StartGuard) -> str:
    """Write the answer for the terminal."""
    lines = [guard.headline, *(f"- {f.sentence} {f.to_do}" for f in guard.findings)]
    if guard.not_checked:
        lines.append("Not checked at this level: " + ", ".join(guard.not_checked) + ".")
    return "\n".join([*lines, *guard.cautions])
