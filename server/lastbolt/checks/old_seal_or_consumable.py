"""A seal or other renewal was not renewed, or the old one was not seen off.

What it finds: fewer new pieces than needed, or spent again by an undo; old ones not seen off where that
    is asked.

Why it matters: an old gasket weeps; a new one over an old one empties the oil.

Example: the pump is fitted, the gasket is the old one; 3 of 4 seals were seen off.

How to clear it: renew it; show the bare face with a photo.

Silent when: the maker allows the re-use, with its page.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..journal.machine import PartFitted
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each renewal that is short; while working, when the part over it goes on."""
    for renewal in case.job.renewals.values():
        need = renewal.needed
        if need is None or need.reuse_allowed:
            continue
        if case.is_live and not (isinstance(case.just, PartFitted) and case.just.part == need.under):
            continue
        proof = evidence(renewal.last, renewal.covered, renewal.spent, photos=case.photos_of(renewal.name))
        if renewal.fitted < need.n:
            yield stop(
                renewal.name,
                said(
                    "{renewal}: {fitted} of {n} renewed.",
                    renewal=renewal.name,
                    fitted=renewal.fitted,
                    n=need.n,
                ),
                to_do="Fit a new one; take the way back in if a part is already over it.",
                proof=proof,
            )
        elif need.see_old_off and renewal.seen_off < need.n:
            yield decide(
                renewal.name,
                said(
                    "{renewal}: the old one was seen off {times} of {n} times.",
                    renewal=renewal.name,
                    times=renewal.seen_off,
                    n=need.n,
                ),
                to_do="Show the bare face with a photo, or the lead writes who saw it off.",
                proof=proof,
            )
