"""A hole that had a fastener has none.

What it finds: every hole of this job at level empty, or parked (the bolt put back in its own hole only
    to keep it).

Why it matters: a missing bolt overloads its neighbours; a finger-tight one falls out.

Example: 5 of 6 sump rail bolts are in; hole 3 is empty.

How to clear it: fit and tighten; or the lead defers it as left out on purpose, with reason, limit,
    barrier and a second name.

Silent when: the hole was never touched, or was recorded as found empty and decided.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, are, evidence, numbers, pieces, stop
from ..said import joined, said
from ..state.fastener_set import EMPTY, PARKED, FastenerSet, remembered

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set with empty or parked holes."""
    for group in case.job.sets.values():
        empty, parked = _open(group)
        if not empty and not parked:
            continue
        what = [_words("{holes} {are} empty ({numbers})", "hole", empty)] if empty else []
        if parked:
            what.append(_words("{holes} {are} only parked ({numbers})", "fastener", parked))
        found = stop(
            group.name,
            said("{set}: {what} of {n}.", set=group.name, what=joined(" and ", what), n=group.n),
            to_do="Fit and tighten; the bag that should feed it is in the evidence.",
            proof=evidence(*group.removed, photos=case.photos_of(group.name), most=2),
        )
        yield replace(found, holes=tuple(sorted(empty + parked)))


def _words(form: str, thing: str, holes: list[int]) -> str:
    n = len(holes)
    return said(form, holes=pieces(n, thing), are=are(n), numbers=numbers(holes))


@remembered
def _open(group: FastenerSet) -> tuple[list[int], list[int]]:
    empty = [h.number for h in group.of_reach(EMPTY) if not h.never_there]
    return empty, [h.number for h in group.of_reach(PARKED)]
