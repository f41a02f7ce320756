"""Locking pieces are missing.

What it finds: fewer split pins, wires, tabs or lock nuts logged than fitted fasteners need; thread-
    locker asked for and no compound put on since they were last out or slackened.

Why it matters: what keeps a nut on is the pin, not the torque.

Example: lock wire on 2 of 4 bolts.

How to clear it: fit them, with a photo.

Silent when: the design locks itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, note, stop
from ..said import said
from ..state.readiness import locking_short

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set that owes locking pieces."""
    for group in case.job.sets.values():
        short = locking_short(group)
        if short and group.described:
            yield stop(
                group.name,
                said(
                    "{set}: {locking} is missing on {short} of {n}.",
                    set=group.name,
                    locking=said(str(group.described.locking)),
                    short=short,
                    n=group.n,
                ),
                to_do="Fit the locking pieces and take a photo of the heads.",
                proof=evidence(*(h.fitted for h in group.holes.values()), photos=case.photos_of(group.name)),
            )
    for element, (act, test) in case.job.tested_wet.items():
        found = note(
            element,
            said("{test} was run before the compound on {element} had cured.", test=test, element=element),
            to_do="Wait as long as the product says, and look for leaks again.",
            proof=evidence(case.job.curing[element][0], act, photos=case.photos_of(element)),
        )
        yield replace(found, variant="cure")
