"""A single-use fastener went back in.

What it finds: a set marked single-use in which a fitted piece is not new, or was fitted, undone and
    fitted again.

Why it matters: a stretch bolt stretches once; a worn locking nut lets go.

Example: the old stretch bolt goes back.

How to clear it: renew it.

Silent when: the maker allows the re-use (with its count), and it was recorded.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, numbers, pieces, stop
from ..said import said
from ..state.fastener_set import PLACED, FastenerSet, Hole, remembered

LEVEL = 3
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each single-use set with used pieces in it."""
    for group in case.job.sets.values():
        if group.described is None or not group.described.single_use:
            continue
        used = _used(group)
        if used:
            found = stop(
                group.name,
                said(
                    "{set} is single-use and {pieces} went back in ({holes}).",
                    set=group.name,
                    pieces=pieces(len(used), "used piece"),
                    holes=numbers(h.number for h in used),
                ),
                to_do="Fit new ones.",
                proof=evidence(*(h.fitted for h in used), photos=case.photos_of(group.name)),
            )
            yield replace(found, holes=tuple(h.number for h in used))


@remembered
def _used(group: FastenerSet) -> list[Hole]:
    allowed = group.described.reuses_allowed if group.described else 0
    here = (h for h in group.holes.values() if h.touched and h.fitted and h.reach >= PLACED)
    return [h for h in here if h.reused and h.reuses > allowed]
