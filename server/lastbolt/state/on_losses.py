"""How entries about lost and found pieces change a job."""

from __future__ import annotations

from dataclasses import replace

from ..journal.fastener_type import FastenerType
from ..journal.fasteners import FastenerIdentified, LossWrittenOff, ThingFound, ThingLost
from .accounts import no_longer_moved, put_pieces, take_pieces
from .fastener_set import Act
from .job import Job
from .ledger import LOST, UNKNOWN, Lot, account_named, is_alike
from .strays import Find, Loss


def lose(job: Job, e: ThingLost, act: Act) -> None:
    """Pieces are missing: they leave where they were counted, if they ever were.

    Under a name that is missing already they come on top: two phones may give one name.
    """
    text = job.ledger.written(e.type)
    pieces = no_longer_moved(job, e.set, e.n, act)
    for account in _missing_from(job, e):
        taken = _taken(job, account, e.set, n=e.n - len(pieces))
        _settle_count(job, account, len(taken))
        for lot in taken:
            job.ledger.put(LOST, lot, 1)
        pieces += taken
    uncounted = e.n - len(pieces)
    job.ledger.put(LOST, Lot(e.set, text, False), uncounted)
    pieces += [Lot(e.set, text, False)] * (uncounted if e.set else 0)
    loss = Loss(
        e.loss,
        e.what,
        e.n,
        e.set,
        e.type,
        act,
        e.last_seen or act.time,
        e.opening,
        zone=e.zone,
        pieces=pieces,
    )
    before = job.losses.get(e.loss)
    job.losses[e.loss] = loss if before is None or before.closed else _on_top(before, loss)


def _missing_from(job: Job, e: ThingLost) -> list[str]:
    """Name the account said, else, for a set's pieces, the unknown one and bags that were counted short."""
    if e.source:
        return [account_named(e.source)]
    short = [name for name, c in job.containers.items() if c.counted and c.counted[1] < c.counted[2]]
    return [UNKNOWN, *short] if e.set else []


def _taken(job: Job, account: str, set_name: str | None, *, n: int) -> list[Lot]:
    """Take up to n pieces out of an account, of one set or, where none is said, of any."""
    pieces: list[Lot] = []
    for lot in list(job.ledger.lots(account)):
        if set_name in (None, lot.set):
            pieces += [lot] * job.ledger.take(account, lot, n - len(pieces))
    return pieces


def _on_top(before: Loss, more: Loss) -> Loss:
    """Add a loss to one of its name that stands open; where the types differ, any may be the one found."""
    is_one_type = before.type is not None and more.type is not None and is_alike(before.type, more.type)
    return replace(
        more,
        n=before.n + more.n,
        type=more.type if is_one_type else None,
        set=more.set if before.set == more.set else None,
        last_seen=min(before.last_seen, more.last_seen),
        opening=more.opening or before.opening,
        zone=more.zone or before.zone,
        pieces=before.pieces + more.pieces,
    )


def find(job: Job, e: ThingFound, act: Act) -> None:
    """Pieces turned up; those of a matching type close the loss they are said to close, as far as they go.

    Under a name that has no home yet they come on top.
    """
    here = Find(e.find, e.what or "a piece", act, type=e.type, n=e.n)
    pieces: list[Lot] = []
    loss = job.losses.get(e.matches) if e.matches else None
    if loss is not None and loss.closed is None and _fits_loss(loss, e.type):
        here.n = max(0, e.n - loss.n)
        found = e.n - here.n
        loss.n -= found
        if loss.n <= 0:
            loss.closed = act
            here.closes = loss.name
        pieces = _back_from_the_lost(job, loss, found)
    elif loss is None and e.set is not None:
        pieces = take_pieces(job, UNKNOWN, e.set, n=e.n)
        here.n -= len(pieces)
    if pieces:
        put_pieces(job, e.to or f"hand of {e.by}", pieces, act)
    before = job.finds.get(e.find)
    here.n += before.n if before is not None and before.settled is None else 0
    here.settled = None if here.n else act
    job.finds[e.find] = here


def _back_from_the_lost(job: Job, loss: Loss, n: int) -> list[Lot]:
    """Take n pieces of a loss out of the lost ones; give those that have been in an account before."""
    told, loss.pieces = loss.pieces[:n], loss.pieces[n:]
    job.ledger.take(LOST, Lot(loss.set, job.ledger.written(loss.type), False), n - len(told))
    return [lot for lot in told if job.ledger.take(LOST, lot, 1)]


def _settle_count(job: Job, account: str, n: int) -> None:
    """A declared loss explains a count that was short by as many."""
    container = job.containers.get(account)
    if container is not None and container.counted is not None:
        act, counted, logged = container.counted
        container.counted = (
            (act, counted, max(counted, logged - n)) if logged > counted else container.counted
        )


def _fits_loss(loss: Loss, found: FastenerType | None) -> bool:
    return loss.type is None or (found is not None and is_alike(loss.type, found))


def identify(job: Job, e: FastenerIdentified, act: Act) -> None:
    """A found piece gets its set, or the lead's word that it is not of this machine."""
    here = job.finds.get(e.find)
    if here is None:
        job.unplaced.append(e)
        return
    if e.not_ours and not job.is_lead(e.by, e.role):
        return
    here.settled = here.identified = act
    n, here.n = here.n, 0
    if e.set and not e.not_ours and n:
        pieces = take_pieces(job, UNKNOWN, e.set, n=n)
        kind = here.type or job.set_named(e.set).wanted(1)
        pieces += [Lot(e.set, job.ledger.written(kind), False)] * (n - len(pieces))
        put_pieces(job, e.to or f"hand of {e.by}", pieces, act)


def write_off(job: Job, e: LossWrittenOff, act: Act) -> None:
    """The search is over; whether that may close the loss is a check's to say."""
    loss = job.losses.get(e.loss)
    if loss is None:
        job.unplaced.append(e)
        return
    loss.written_off, loss.written_off_as, loss.second = act, e.role, e.second
