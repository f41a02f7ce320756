"""A piece is lost, and may be inside the machine.

What it finds: a loss that no find has closed; worst when a class A mouth stood bare since the piece was
    last seen, or it fell there.

Why it matters: a nut in an intake or a gearbox destroys the machine at the first turn.

Example: a nut dropped beside an open intake port.

How to clear it: find it (same type, with a photo); only where no mouth was bare may the lead and a
    second person write it off.

Silent when: a find of the same type closed the loss, and no other job misses a piece like it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ..finding import Case, Finding, decide, evidence, stop
from ..state.elements import Loss, Opening
from ..state.job import Job
from ..state.ledger import is_alike

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each open loss, worst where a mouth was bare."""
    job = case.job
    for loss in job.losses.values():
        if loss.closed is not None:
            yield from _doubtful(case, loss)
            continue
        bare = sorted(
            o.name for o in job.openings.values() if o.letter == "A" and _was_bare(o, loss.last_seen)
        )
        if loss.opening and loss.opening not in bare and _harms(job, loss.opening):
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


def _doubtful(case: Case, loss: Loss) -> Iterator[Finding]:
    """Ask whose the found piece is when another job misses one like it (practice C07)."""
    for other in case.others:
        for twin in other.losses.values():
            open_there = twin.closed is None and twin.written_off is None and other.ended is None
            alike = loss.type and twin.type and is_alike(twin.type, loss.closed_by or loss.type)
            if open_there and alike:
                yield decide(
                    loss.name,
                    f"{loss.what} was found, and job {other.name} misses a piece like it: whose is it?",
                    to_do="Compare the piece with both machines; the lead writes whose it is.",
                    proof=evidence(loss.closed, twin.act),
                )
                return


def _was_bare(opening: Opening, since: datetime) -> bool:
    return any(until is None or until >= since for _, until in opening.bare)


def _harms(job: Job, name: str) -> bool:
    """Tell whether a mouth leads to where a stranger does harm; bodywork (class C) does not."""
    return name not in job.openings or job.openings[name].letter != "C"
