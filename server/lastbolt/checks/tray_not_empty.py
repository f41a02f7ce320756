"""A container of this job still holds parts.

What it finds: at release, any tray, bag, dish, pocket or hand of this job in which the ledger still
    counts pieces.

Why it matters: a piece left over is a piece missing from the machine; leftovers are the commonest way a
    reassembly goes wrong.

Example: bag B-0427 still holds 1 of 8 manifold bolts.

How to clear it: fit it; move it (scrap, store, another bag); or look into the container, feel it, and
    record it empty.

Silent when: all that is left are old pieces beside new ones of the same type that are fitted (then new-
    for-old speaks), or a hand count found none.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, evidence, pieces, stop
from ..label_code import printed
from ..said import joined, said
from ..state.ledger import Lot
from ..state.replaced import is_replaced

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each container in which pieces are left."""
    job = case.job
    for name, container in job.containers.items():
        lots = {lot: n for lot, n in job.ledger.lots(name).items() if not is_replaced(job, lot, n)}
        left = sum(lots.values())
        recounted = container.counted is not None and container.counted_empty
        if not left or recounted:
            continue
        what = joined(", ", [_words(lot, n) for lot, n in sorted(lots.items(), key=str)])
        touched = "{pieces} {are} still in {container}: {what}, last touched by {who}."
        form = touched if container.last else "{pieces} {are} still in {container}: {what}."
        yield stop(
            name,
            said(
                form,
                pieces=pieces(left, "piece"),
                are=are(left),
                container=printed(name),
                what=what,
                who=container.last.by if container.last else "",
            ),
            to_do="Fit what is left, or say where it goes: scrap, store, another bag; then look and feel that it is empty.",
            proof=evidence(container.last, photos=[*container.photos[-2:], *case.photos_of(name)]),
        )


def _words(lot: Lot, n: int) -> str:
    form = "{n} x {type} ({set})"
    return said(form, n=n, type=lot.type or said("piece"), set=lot.set or said("no set"))
