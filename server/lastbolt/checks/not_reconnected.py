"""A connection is apart, or was not tried.

What it finds: a plug, hose, pipe or cable that is apart, or put on without a pull or a tight clamp.

Why it matters: a hose pushed on and not clamped holds until the first pressure.

Example: the temperature plug hangs beside its sensor.

How to clear it: connect it, pull to try it, tighten the clamp.

Silent when: it was blanked by design and the lead said so.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each connection that is apart or untried."""
    for here in case.job.connections.values():
        if here.apart is None and here.unsure is None:
            continue
        apart = "{connection} is apart."
        untried = "{connection} is on, but not pulled to try it or its clamp not tight."
        yield stop(
            here.name,
            said(apart if here.apart else untried, connection=here.name),
            to_do="Connect it, pull to try it, tighten its clamp.",
            proof=evidence(here.apart, here.unsure, photos=case.photos_of(here.name)),
        )
