"""Something is owed after release and nobody was told, or it is overdue.

What it finds: a duty after release (tighten wheels again, look at the level) without the name of who was
    told; one past its due date.

Why it matters: the known trouble with re-tightening is that nobody proves it.

Example: wheel nuts to be tightened again after 50 km.

How to clear it: tell the driver and write the name; do it and record it.

Silent when: it is done, or told and not yet due.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each duty untold or overdue."""
    for duty, (act, told_to, due, done) in case.job.duties.items():
        overdue = due is not None and case.at is not None and due < case.at
        if done or (told_to and not overdue):
            continue
        yield decide(
            duty,
            said(
                "{duty} is overdue." if overdue else "{duty} is owed after release, and nobody was told.",
                duty=duty,
            ),
            to_do="Tell who must do it, or do it and record it.",
            proof=evidence(act),
        )
