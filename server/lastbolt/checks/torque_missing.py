"""A fastener that owes a torque has none.

What it finds: a fitted hole of a set with a value whose last stage was not pulled.

Why it matters: hand-tight looks like tight; vibration finds the difference.

Example: the sensor bolt is only hand-tight.

How to clear it: tighten it to the value of the manual and record it.

Silent when: the set has no value, or is hand tight by design, or its confirmation was undone (then
    torque-undone speaks).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, are, evidence, numbers, pieces, stop
from ..said import said
from ..state.readiness import without_torque

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set with holes that owe their last stage."""
    for group in case.job.sets.values():
        owed = without_torque(group)
        if not owed:
            continue
        found = stop(
            group.name,
            said(
                "{set}: {fasteners} {are} fitted and not tightened to the value ({holes}).",
                set=group.name,
                fasteners=pieces(len(owed), "fastener"),
                are=are(len(owed)),
                holes=numbers(h.number for h in owed),
            ),
            to_do="Tighten to the maker's value for this machine, page and revision at hand, and record it.",
            proof=evidence(group.spec_act, *(h.worked for h in owed), photos=case.photos_of(group.name)),
        )
        yield replace(found, holes=tuple(h.number for h in owed))
