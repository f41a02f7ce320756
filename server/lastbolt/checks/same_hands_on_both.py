"""One person did all of the redundant units.

What it finds: critical work on every one of the units that back each other up, by one and the same
    person, with no second person on any.

Why it matters: the same mistake on both engines leaves no engine.

Example: both borescope covers refitted by one person at night.

How to clear it: another person looks at one of them.

Silent when: a second person looked at one unit; only one unit was touched.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name the person who did all units."""
    job = case.job
    units = job.opened.redundant_units if job.opened else ()
    doers: dict[str, set[str]] = {}
    looked: set[str] = set()
    last = None
    for group in job.sets.values():
        unit = group.described.unit if group.described else None
        if unit in units and group.fitted_by and unit is not None:
            doers.setdefault(unit, set()).update(group.fitted_by)
            last = group.last_final or last
            if any(act.by not in group.fitted_by for act, _, _ in job.second_checks.get(group.name, [])):
                looked.add(unit)
    if len(units) < 2 or set(doers) != set(units) or looked:
        return
    for person in sorted(set.intersection(*doers.values())):
        yield decide(
            person,
            f"{person} did all of {', '.join(units)} and nobody else looked at one.",
            to_do="Another person looks at one of them.",
            proof=evidence(last),
        )
