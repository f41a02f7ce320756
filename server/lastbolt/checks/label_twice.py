"""One label is alive on two things.

What it finds: a label bound to a second thing while the first still has it.

Why it matters: a scan then names the wrong bag.

Example: a second roll was printed with the same numbers.

How to clear it: retire one, label it anew, count both.

Silent when: the same thing scanned twice.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..label_code import printed
from ..said import joined, said

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each label with more than one living thing."""
    for label, things in case.job.labels.items():
        if len(things) > 1:
            yield decide(
                label,
                said(
                    "{label} is on {things}.",
                    label=printed(label),
                    things=joined(" and on ", sorted(map(printed, things))),
                ),
                to_do="Retire one, print a new number for it, count both.",
                proof=evidence(*things.values()),
            )
