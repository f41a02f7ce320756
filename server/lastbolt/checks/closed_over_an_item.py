"""An opening was shut with something in it.

What it finds: an opening closed while an item is in it or an open loss points to it.

Why it matters: nobody will look there again.

Example: the manifold is on, the towel is inside.

How to clear it: open it, take it out, look.

Silent when: the item was in the zone and not in the opening.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each shut opening with an item or a loss in it."""
    job = case.job
    for opening in job.openings.values():
        if opening.open_since is not None or opening.closed is None:
            continue
        inside = [i for i in job.items.values() if i.n > 0 and i.opening == opening.name]
        lost = [loss for loss in job.losses.values() if loss.closed is None and loss.opening == opening.name]
        names = [i.name for i in inside] + [loss.what for loss in lost]
        if names:
            yield stop(
                opening.name,
                said("{opening} was shut over {things}.", opening=opening.name, things=", ".join(names)),
                to_do="Open it, take it out, look inside.",
                proof=evidence(opening.closed, *(i.act for i in inside), photos=case.photos_of(opening.name)),
                never=True,
            )
