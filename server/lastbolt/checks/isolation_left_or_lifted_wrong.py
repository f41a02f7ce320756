"""An isolation is still on, or was lifted by the wrong hand.

What it finds: a tag still on at release; a tag taken off by another than its holder; energy restored
    while an item or class A mouth in its reach was open.

Why it matters: only the one who hung the tag knows who still relies on it.

Example: the sea-cock opened by Ben, the tag is Ana's.

How to clear it: the holder takes it off, or passes it on; what is past the lead writes down.

Silent when: the tag was transferred first; only the reach of the point counts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each tag still on, and each that was lifted wrong."""
    for point in case.job.isolations.values():
        photos = case.photos_of(point.name)
        if point.applied is not None and not case.is_live:
            found = stop(
                point.name,
                said("{point} is still off, tag of {holder}.", point=point.name, holder=point.holder),
                to_do="Its holder looks the machine over, takes the tag off and restores it, or passes it on.",
                proof=evidence(point.applied, photos=photos),
                never=True,
            )
            yield replace(found, variant="on")
        if point.lifted_by_other is not None:
            found = decide(
                point.name,
                said(
                    "{point} was lifted by {who}, who did not hold its tag.",
                    point=point.name,
                    who=point.lifted_by_other.by,
                ),
                to_do="The lead asks both, and writes it down.",
                proof=evidence(point.lifted_by_other, photos=photos),
            )
            yield replace(found, variant="hand")
        elif point.lifted_over is not None:
            act, what = point.lifted_over
            found = decide(
                point.name,
                said("{point} was lifted while {what}.", point=point.name, what=what),
                to_do="Look at what stood open; the lead writes it down.",
                proof=evidence(act, photos=photos),
            )
            yield replace(found, variant="over")
