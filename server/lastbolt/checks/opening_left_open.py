"""An opening is not shut.

What it finds: an opening that was opened and not closed.

Why it matters: what falls in stays in; what should be shut leaks.

Example: the tank filler stands open after filling.

How to clear it: look in and close it.

Silent when: it was shut again. Class C openings (bodywork) can be deferred, classes A and B never.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each opening that stands open."""
    for opening in case.job.openings.values():
        if opening.open_since is not None:
            yield stop(
                opening.name,
                said(
                    "{opening} stands open ({n} of {mouths} mouths covered).",
                    opening=opening.name,
                    n=max(opening.covers, 0),
                    mouths=opening.mouths,
                ),
                to_do="Take the covers off, look inside, close it.",
                proof=evidence(opening.open_since, opening.cover_act, photos=case.photos_of(opening.name)),
                never=opening.letter != "C",
            )
