"""A piece is lost, and may be inside the machine.

What it finds: a loss that no find has closed; worst when a class A mouth stood bare since the piece was
    last seen, or it fell there or in its zone.

Why it matters: a nut in an intake or a gearbox destroys the machine at the first turn.

Example: a nut dropped beside an open intake port.

How to clear it: find it (same type, with a photo); only where no mouth was bare may the lead and a
    second person write it off.

Silent when: a find of the same type closed the loss, and no other job misses a piece like it or a person
    said which set it is of.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said
from ..state.contested import contested
from ..state.elements import Opening
from ..state.job import Job
from ..state.strays import Loss

LEVEL = 1
LIVE = True

RETRIEVE = (
    "Do not turn it. Light, magnet, scope; no second loose piece as a tracer. Record the find with a photo."
)
SEARCH = "Count the trays first, then search; write it off only with a second person."
WHOSE = "Compare the piece with both machines, then record which set it is of."


def check(case: Case) -> Iterator[Finding]:
    """Name each open loss, worst where a mouth was bare."""
    doubtful = {loss.name: (find, other) for loss, find, other in contested(case.job, case.others)}
    for loss in case.job.losses.values():
        find, other = doubtful.get(loss.name, (None, None))
        if loss.closed is not None and find is None:
            continue
        bare = _bare_since(case.job, loss)
        if not bare and _is_written_off(case.job, loss):
            continue
        proof = evidence(loss.act, find.act if find else None, photos=case.photos_of(loss.name, *bare))
        which = _which(loss, other)
        to_do = WHOSE if other else RETRIEVE if bare else SEARCH
        if bare:
            since = "{which} and may be inside: {openings} stood bare since it was last seen."
            beside = "{which} and may be inside: it fell where {openings} stood open."
            known = [case.job.openings[name] for name in bare if name in case.job.openings]
            form = since if any(_was_bare(opening, loss.last_seen) for opening in known) else beside
            inside = said(form, which=which, openings=", ".join(bare))
            yield stop(loss.name, inside, to_do=to_do, proof=proof, never=True)
        else:
            outside = said("{which}; no class A mouth was bare since it was last seen.", which=which)
            yield decide(loss.name, outside, to_do=to_do, proof=proof)


def _which(loss: Loss, other: Job | None) -> str:
    if other is None:
        return said("{what} is lost", what=loss.what)
    form = "{what} was found, and job {other} misses one too: whose is it? Ours is lost"
    return said(form, what=loss.what, other=other.name)


def _is_written_off(job: Job, loss: Loss) -> bool:
    """Tell whether a lead wrote it off and somebody else stands for it too."""
    act = loss.written_off
    if act is None or not loss.second or loss.second == act.by:
        return False
    return job.is_lead(act.by, loss.written_off_as)


def _bare_since(job: Job, loss: Loss) -> list[str]:
    """List the mouths it may have gone into: class A ones bare since it was last seen, and where it fell."""
    worst = [opening for opening in job.openings.values() if opening.letter == "A"]
    bare = sorted(o.name for o in worst if _was_bare(o, loss.last_seen) or _is_in_zone(o, loss))
    if loss.opening and loss.opening not in bare and _harms(job, loss.opening):
        bare.append(loss.opening)
    return bare


def _is_in_zone(opening: Opening, loss: Loss) -> bool:
    """Tell whether it fell in the zone of a mouth that was open then or later, covered or not."""
    zone = opening.described.zone_name if opening.described else None
    if not loss.zone or loss.zone != zone:
        return False
    is_open = opening.open_since is not None
    return is_open or (opening.closed is not None and opening.closed.time >= loss.last_seen)


def _was_bare(opening: Opening, since: datetime) -> bool:
    return any(until is None or until >= since for _, until in opening.bare)


def _harms(job: Job, name: str) -> bool:
    """Tell whether a mouth leads to where a stranger does harm; bodywork (class C) does not."""
    return name not in job.openings or job.openings[name].letter != "C"
