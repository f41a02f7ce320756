"""An opening stood bare while nobody was there.

What it finds: fewer covers than mouths while nobody was signed on; for class B only overnight; class C
    never.

Why it matters: what fell in overnight has no witness.

Example: 3 of 4 ports were covered on Friday at 16:00.

How to clear it: look inside, and the lead writes it down.

Silent when: somebody else was signed on, or every mouth was covered.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each opening that was left bare."""
    for opening in case.job.openings.values():
        if opening.unattended is not None:
            yield decide(
                opening.name,
                said("{opening} stood bare when the last one signed off.", opening=opening.name),
                to_do="Look inside every mouth; the lead writes what was seen.",
                proof=evidence(opening.unattended, photos=case.photos_of(opening.name)),
            )
