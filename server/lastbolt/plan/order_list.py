"""What to order, known the minute it comes off and not at refit (practice 8.5)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..journal.fastener_type import FastenerType
from ..said import said
from ..state.fastener_set import FastenerSet, Hole, Reach
from ..state.job import Job

REPLACEABLE = ("missing", "broken", "stripped", "wrong", "corroded")
PIECE_WORDS = {
    "split-pin": "split pin",
    "wire": "length of lock wire",
    "tab": "tab washer",
    "locknut": "lock nut",
    "thread-locker": "dose of thread-locker",
    "other": "locking piece",
}


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One thing to get: how many, of what, for which element, and why; `what` is as precise as the record."""

    what: str
    n: int
    element: str
    why: str
    part_number: str | None = None


def order_list(job: Job) -> tuple[OrderLine, ...]:
    """List what a job needs new and does not have yet, by element.

    Counted are seals and other renewals not fitted yet, single-use fasteners and locking pieces that came
    off, what was found bad, and what is lost. New pieces that lie ready in a bag are taken off.
    """
    lines = [*_renewals(job), *_losses(job)]
    for group in job.sets.values():
        lines += _of_set(job, group)
    return tuple(sorted(lines, key=lambda line: (line.element, line.what, line.why)))


def _renewals(job: Job) -> Iterator[OrderLine]:
    for renewal in job.renewals.values():
        need = renewal.needed
        if need is None or need.reuse_allowed or renewal.fitted >= need.n:
            continue
        over = said("goes under {part}", part=need.under) if need.under else said("must be new")
        why = said("spent again: what lay over it came off") if renewal.spent else over
        yield OrderLine(
            renewal.name,
            need.n - renewal.fitted,
            need.under or need.set or renewal.name,
            why,
            need.part_number,
        )


def _losses(job: Job) -> Iterator[OrderLine]:
    for loss in job.losses.values():
        if loss.closed is None:
            yield OrderLine(
                str(loss.type or loss.what), loss.n, loss.set or loss.name, said("lost and not found")
            )


def _of_set(job: Job, group: FastenerSet) -> Iterator[OrderLine]:
    described = group.described
    ready = sum(
        n
        for name in job.containers
        for lot, n in job.ledger.lots(name).items()
        if lot.set == group.name and lot.new
    )
    once = bool(described and described.single_use and not described.reuses_allowed)
    for kind, n in _opened(group, once=once).items():
        covered = min(ready, n)
        ready -= covered
        if n > covered:
            yield OrderLine(kind, n - covered, group.name, said("single-use, and they were undone"))
    if not once:
        yield from _found_bad(group, ready)
    yield from _locking(group)


def was_opened(hole: Hole) -> bool:
    """Tell whether a fastener was taken out or slackened in this job."""
    back_in = hole.fitted is not None or hole.loose is not None or hole.undone is not None
    return hole.touched and (hole.reach < Reach.PLACED or back_in)


def _opened(group: FastenerSet, *, once: bool) -> dict[str, int]:
    """Count by type the holes of a single-use set that were opened and have no new piece in them."""
    owed: dict[str, int] = {}
    for hole in group.holes.values() if once else ():
        if was_opened(hole) and not (hole.new and hole.reach >= Reach.PLACED):
            kind = _named(group, hole.type or group.wanted(hole.number))
            owed[kind] = owed.get(kind, 0) + 1
    return owed


def _found_bad(group: FastenerSet, ready: int) -> Iterator[OrderLine]:
    for _, bad in group.found_bad:
        renewed = [k for k in bad.holes if k in group.holes and group.holes[k].new]
        n = max(len(bad.holes), 1) - len(renewed)
        covered = min(ready, n)
        ready -= covered
        if bad.defect in REPLACEABLE and n > covered:
            kind = _named(group, group.wanted(bad.holes[0] if bad.holes else 1))
            yield OrderLine(kind, n - covered, group.name, said("found {defect}", defect=said(bad.defect)))


def _named(group: FastenerSet, kind: FastenerType | None) -> str:
    return str(kind) if kind else said("fastener of {set}", set=group.name)


def _locking(group: FastenerSet) -> Iterator[OrderLine]:
    """Locking pieces are spent when what they lock comes off; own locking and wet locker are not counted."""
    kind = group.described.locking if group.described else None
    if kind in (None, "own", "thread-locker"):
        return
    opened = sum(1 for h in group.holes.values() if was_opened(h))
    since = max((act.time for act in group.removed), default=None)
    fitted = sum(n for act, _, n, _ in group.locking if since is None or act.time >= since)
    if opened > fitted:
        piece = said(PIECE_WORDS.get(str(kind), str(kind)))
        yield OrderLine(piece, opened - fitted, group.name, said("spent when it was undone"))
