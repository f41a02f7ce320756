"""A part that came off is not on.

What it finds: a cover, bracket or other part that is off when the release is asked for.

Why it matters: a part is never on because its bolts are; heat shields and guards stay on shelves.

Example: the heat shield lies on the shelf.

How to clear it: fit it; or say what replaced it; or the lead defers it.

Silent when: the part was never taken off.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each part that is off."""
    for part in case.job.parts.values():
        if not part.on:
            lies = "{part} is not back on; it lies at {place}."
            yield stop(
                part.name,
                said(
                    lies if part.place else "{part} is not back on.",
                    part=part.name,
                    place=part.place or "",
                ),
                to_do="Fit it, or record what replaced it.",
                proof=evidence(part.off_at, photos=case.photos_of(part.name)),
            )
