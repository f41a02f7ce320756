"""An opening was opened dirty, or shut without a look.

What it finds: a class A or B opening shut without a look since the last cover came off; an opening
    marked clean-first opened without cleaning.

Why it matters: the look before closing is the last one.

Example: a gearbox opened with chaff on the cover.

How to clear it: open or scope it, with a photo; for the past the lead writes what was done.

Silent when: class C; a class B hose joined within 2 minutes of uncapping.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each opening shut unseen, else opened dirty."""
    for opening in case.job.openings.values():
        if opening.closed_unseen is not None:
            build = stop if opening.letter == "A" else decide
            found = build(
                opening.name,
                said(
                    "{opening} was shut and nobody looked inside after the last cover came off.",
                    opening=opening.name,
                ),
                to_do="Open it or use a scope, look, take a photo.",
                proof=evidence(opening.closed_unseen, photos=case.photos_of(opening.name)),
            )
            yield replace(found, variant="unseen")
        elif opening.opened_dirty is not None:
            found = decide(
                opening.name,
                said("{opening} was opened without cleaning around it.", opening=opening.name),
                to_do="Look for what fell in; the lead writes what was seen.",
                proof=evidence(opening.opened_dirty, photos=case.photos_of(opening.name)),
            )
            yield replace(found, variant="dirty")
