"""A piece is lost, and may be inside the machine.

What it finds: a loss that no find has closed; worst when a class A mouth stood bare since the piece was
    last seen, or it fell there.

Why it matters: a nut in an intake or a gearbox destroys the machine at the first turn.

Example: a nut dropped beside an open intake port.

How to clear it: find it (same type, with a photo); only where no mouth was bare may the lead and a
    second person write it off.

Silent when: a find of the same type closed the loss.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ..finding import Case, Finding, decide, evidence, stop
from ..state.elements import Opening

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each open loss, worst where a mouth was bare."""
    job = case.job
    for loss in job.losses.values():
        if loss.closed is not None:
            continue
        bare = sorted(
            o.name for o in job.openings.values() if o.letter == "A" and _was_bare(o, loss.last_seen)
        )
        if loss.opening and loss.opening not in bare:
            bare.append(loss.opening)
        if not bare and loss.written_off and loss.second and loss.second != loss.written_off.by:
            continue
        proof = evidence(loss.act, photos=case.photos_of(loss.name, *bare))
        if bare:
            yield stop(
                loss.name,
                f"{loss.what} is lost and may be inside: {', '.join(bare)} stood bare since it was last seen.",
                to_do="Do not turn it. Light, magnet, scope; no second loose piece as a tracer. Record the find with a photo.",
                proof=proof,
                never=True,
            )
        else:
            yield decide(
                loss.name,
                f"{loss.what} is lost; no class A mouth was bare since it was last seen.",
                to_do="Count the trays first, then search; write it off only with a second person.",
                proof=proof,
            )


def _was_bare(opening: Opening, since: datetime) -> bool:
    return any(until is None or until >= since for _, until in opening.bare)
