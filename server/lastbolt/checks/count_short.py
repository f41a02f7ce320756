"""More came out than went into a container.

What it finds: pieces of a set that left their holes and reached no container, hand or declared loss.

Why it matters: the missing piece is on the floor, in a pocket, or inside the machine; it is found now or
    never.

Example: 8 manifold bolts out, 7 in the bag.

How to clear it: find it and bag it; or declare it lost; or correct the count.

Silent when: the piece was parked in its hole on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, evidence, pieces, stop
from ..said import said
from ..state.ledger import UNKNOWN

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each set with pieces in the unknown account."""
    for group in case.job.sets.values():
        short = case.job.ledger.balance(UNKNOWN, group.name)
        if short:
            yield stop(
                group.name,
                said(
                    "{pieces} of {set} came out and {are} in no container.",
                    pieces=pieces(short, "piece"),
                    set=group.name,
                    are=are(short),
                ),
                to_do="Look for it now: bag it, or declare it lost with the place where it was last seen.",
                proof=evidence(group.unknown_since, photos=case.photos_of(group.name)),
            )
