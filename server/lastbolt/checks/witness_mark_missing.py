"""A paint stripe is missing.

What it finds: fewer stripes than fasteners in a set that wants them.

Why it matters: a stripe shows a turned bolt from a metre away.

Example: 7 of 8 striped.

How to clear it: tighten, then stripe it.

Silent when: no stripe is wanted.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, note
from ..said import said
from ..state.fastener_set import was_touched

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stripes missing."""
    for group in case.job.sets.values():
        wanted = bool(group.described and group.described.witness_wanted)
        if (
            wanted
            and was_touched(group)
            and any(h.fitted for h in group.holes.values())
            and group.witness < group.n
        ):
            yield note(
                group.name,
                said(
                    "{set}: {witness} of {n} have a stripe.", set=group.name, witness=group.witness, n=group.n
                ),
                to_do="Stripe the rest after tightening.",
                proof=evidence(group.last_final, photos=case.photos_of(group.name)),
            )
