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

LEVEL = 3
LIVE = False


SECONDS_EACH = 2.0
"""A guess of practice, annex A1; common practice, no source."""


def check(case: Case) -> Iterator[Finding]:
    """Name each set with pulls that follow too fast."""
    for group in case.job.sets.values():
        for before, after in pairwise(sorted(group.tightened, key=lambda p: p.act.time)):
            gap_s = (after.act.time - before.act.time).total_seconds()
            n = len(after.entry.holes)
            if (
                after.entry.mode == "tap"
                and n
                and 0 < gap_s < SECONDS_EACH * n
                and before.act.by == after.act.by
            ):
                yield decide(
                    group.name,
                    f"{group.name}: {pieces(n, 'fastener')} confirmed within {gap_s:g} s of the ones before.",
                    to_do="Check them again with the wrench.",
                    proof=evidence(before.act, after.act, photos=case.photos_of(group.name)),
                )
                break
