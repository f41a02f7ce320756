"""Fasteners were confirmed faster than hands can be.

What it finds: bolts confirmed one after another in less than 2 seconds each.

Why it matters: a tick that costs nothing proves nothing.

Example: 12 bolts ticked in 9 seconds.

How to clear it: check them again with the wrench; or the lead writes how it was done.

Silent when: one entry for the whole pattern, entries of the same second from a batch, late entries.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ..finding import Case, Finding, decide, evidence, pieces
from ..said import said
from ..state.fastener_set import FastenerSet, Pull, remembered

LEVEL = 3
LIVE = False


SECONDS_EACH = 2.0
"""A guess of practice, annex A1; common practice, no source."""


def check(case: Case) -> Iterator[Finding]:
    """Name each set with pulls that follow too fast."""
    for group in case.job.sets.values():
        pair = _too_fast(group)
        if pair:
            before, after = pair
            gap_s = (after.act.time - before.act.time).total_seconds()
            count = pieces(len(after.entry.holes), "fastener")
            yield decide(
                group.name,
                said(
                    "{set}: {fasteners} confirmed within {gap_s} s of the ones before.",
                    set=group.name,
                    fasteners=count,
                    gap_s=f"{gap_s:g}",
                ),
                to_do="Check them again with the wrench.",
                proof=evidence(before.act, after.act, photos=case.photos_of(group.name)),
            )


@remembered
def _too_fast(group: FastenerSet) -> tuple[Pull, Pull] | None:
    """Give the first two pulls by one person that follow faster than hands can."""
    for before, after in pairwise(sorted(group.tightened, key=lambda p: p.act.time)):
        n = len(after.entry.holes)
        if n and after.entry.mode == "tap" and before.act.by == after.act.by:
            gap_s = (after.act.time - before.act.time).total_seconds()
            if 0 < gap_s < SECONDS_EACH * n:
                return before, after
    return None
