"""Old pieces are kept beside the new ones that replaced them.

What it finds: a container in which only old pieces are left whose set has new ones of the same type in
    its holes.

Why it matters: old single-use nuts in an open bag find their way back onto a machine.

Example: 2 new nuts are fitted, 2 old ones are still in the bag.

How to clear it: scrap them; return them to the store; or the lead accepts that they are kept, labelled
    as old.

Silent when: nothing was replaced, the old ones are scrapped, or the container was counted empty.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, decide, evidence, pieces
from ..label_code import printed
from ..said import said
from ..state.replaced import is_replaced

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each container that holds replaced pieces only."""
    job = case.job
    for name, container in job.containers.items():
        old = {lot: n for lot, n in job.ledger.lots(name).items() if is_replaced(job, lot, n)}
        if not old or (container.counted is not None and container.counted_empty):
            continue
        count = sum(old.values())
        sets = ", ".join(sorted({lot.set for lot in old if lot.set}))
        yield decide(
            name,
            said(
                "{pieces} of {sets} {are} kept in {container} beside the new ones fitted.",
                pieces=pieces(count, "old piece"),
                sets=sets,
                are=are(count),
                container=printed(name),
            ),
            to_do="Scrap them, or keep them labelled as old and say so.",
            proof=evidence(container.last, photos=case.photos_of(name)),
        )
