"""A hand count differs from the record, or a container was not seen.

What it finds: a stock-take that differs from the ledger; a container with parts in it that the taker did
    not see at the handover.

Why it matters: what was not seen at the handover is what goes missing.

Example: 3 counted, 4 logged; bag B2 not seen on Monday.

How to clear it: scan or count it; correct the count; or declare the loss.

Silent when: the container was scanned or counted since.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..label_code import printed
from ..said import said

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each container counted otherwise or not seen."""
    for container in case.job.containers.values():
        if container.counted is not None and container.counted[1] != container.counted[2]:
            act, n, logged = container.counted
            yield decide(
                container.name,
                said(
                    "{container} was counted as {n} and the record says {logged}.",
                    container=printed(container.name),
                    n=n,
                    logged=logged,
                ),
                to_do="Count again; correct the record, or declare what is missing.",
                proof=evidence(act, photos=case.photos_of(container.name)),
            )
        elif container.unseen_at_handover is not None and case.job.ledger.balance(container.name):
            yield decide(
                container.name,
                said(
                    "{container} still holds parts and was not seen at the handover.",
                    container=printed(container.name),
                ),
                to_do="Find it and scan it, or count what is in it.",
                proof=evidence(container.unseen_at_handover, photos=case.photos_of(container.name)),
            )
