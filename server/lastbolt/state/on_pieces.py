"""How entries about pieces change a job that leave the holes alone: moved between accounts, found bad."""

from __future__ import annotations

from ..journal.fasteners import FastenersFoundBad, FastenersMoved
from ..said import said
from .accounts import no_longer_moved, put_pieces, used_in_store
from .fastener_set import EMPTY, Act, FastenerSet, Hole
from .job import Job, Oddity
from .ledger import LOST, NEW, STORE, VIRTUAL, Lot, account_named


def move(job: Job, e: FastenersMoved, act: Act) -> None:
    """From one account to another; NEW and STORE give without end."""
    if account_named(e.source) != e.source:
        e = e.model_copy(update={"source": account_named(e.source)})
    group = job.sets.get(e.set) if e.set else None
    text = job.ledger.written(e.type or (group.wanted(1) if group else None))
    pieces: list[Lot] = []
    if e.source in (NEW, STORE):
        for _ in range(e.n):
            used = used_in_store(job, e.source, e.set)
            pieces.append(used or Lot(e.set, text, True))
    else:
        for lot in sorted(job.ledger.lots(e.source), key=lambda lot: (lot.type != text, lot.new)):
            if e.set is not None and lot.set not in (e.set, None):
                continue
            if e.type is not None and lot.type not in (text, ""):
                continue
            pieces += [lot] * job.ledger.take(e.source, lot, e.n - len(pieces))
    if len(pieces) < e.n:
        job.oddities.append(
            Oddity(
                e.set or e.source,
                said("more was moved than lay in {container}", container=e.source),
                e.n - len(pieces),
                act,
            )
        )
        pieces += [Lot(e.set, text, False)] * (e.n - len(pieces))
    if e.source == LOST:
        for lot in pieces:
            no_longer_moved(job, lot.set, 1, act)
    put_pieces(job, e.to, pieces, act)
    if e.source not in VIRTUAL:
        job.container_named(e.source).last = act


def find_bad(job: Job, e: FastenersFoundBad, act: Act) -> None:
    """As found: an empty hole needs no bolt of ours, anything else waits for a word."""
    group = job.set_named(e.set)
    group.found_bad.append((act, e))
    if e.defect == "missing":
        for number in e.holes:
            _was_never_there(job, group, group.hole(number))


def _was_never_there(job: Job, group: FastenerSet, hole: Hole) -> None:
    """Mark a hole that had no bolt when we came; if a removal took it for a full one, another was meant."""
    if hole.touched and hole.reach is not EMPTY:
        return
    hole.never_there, hole.by_count = True, False
    if hole.touched:
        full = [h for h in group.holes.values() if not h.touched and h.reach is not EMPTY]
        if not full:
            return
        full[-1].touched, full[-1].reach = True, EMPTY
    hole.touched, hole.reach = False, EMPTY
