"""A found piece belongs to nothing yet.

What it finds: a found fastener that neither closes a loss nor was identified to a set.

Why it matters: it came from somewhere: this machine, or the next one.

Example: an M12x50 lies on the bench at the end.

How to clear it: identify it to a set; or the lead says, with a photo, that it is not of this machine.

Silent when: the find closed a loss of the same type, and no other job misses one like it.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said
from ..state.contested import contested

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each find without a home."""
    doubtful = {find.name for _, find, _ in contested(case.job, case.others)}
    for find in case.job.finds.values():
        if find.settled is None or find.name in doubtful:
            yield decide(
                find.name,
                said(
                    "{what} was found and belongs to no set yet ({type}).",
                    what=find.what,
                    type=find.type or said("type unknown"),
                ),
                to_do="Say which set it is of, or that it is not of this machine, with a photo.",
                proof=evidence(find.act, photos=case.photos_of(find.name)),
            )
