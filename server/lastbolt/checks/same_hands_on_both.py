"""One person did all of the redundant units.

What it finds: sets tightened or parts put on at every one of the units that back each other up, by one
    and the same person, with no good look by a second person on any.

Why it matters: the same mistake on both engines leaves no engine.

Example: both borescope covers refitted by one person at night.

How to clear it: another person looks at one of them.

Silent when: a second person looked at one unit; only one unit was touched.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said
from ..state.fastener_set import Act
from ..state.job import Job
from ..state.later_look import last_done
from ..state.second_look import is_seen

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name the person who did all units."""
    job = case.job
    units = job.opened.redundant_units if job.opened else ()
    doers: dict[str, set[str]] = {}
    looked: set[str] = set()
    last = None
    for name, unit, people, act in _done(job):
        if unit in units and people:
            doers.setdefault(unit, set()).update(people)
            last = act or last
            if is_seen(job, name, doers=people, since=act):
                looked.add(unit)
    if len(units) < 2 or set(doers) != set(units) or looked:
        return
    for person in sorted(set.intersection(*doers.values())):
        yield decide(
            person,
            said(
                "{person} did all of {units} and nobody else looked at one.",
                person=person,
                units=", ".join(units),
            ),
            to_do="Another person looks at one of them.",
            proof=evidence(last),
        )


def _done(job: Job) -> Iterator[tuple[str, str, set[str], Act | None]]:
    for group in job.sets.values():
        if group.described and group.described.unit:
            yield group.name, group.described.unit, group.fitted_by, last_done(group)
    for part in job.parts.values():
        if part.described and part.described.unit and part.on_at:
            yield part.name, part.described.unit, {part.on_at.by}, part.on_at
