"""How entries about lost and found pieces change a job."""

from __future__ import annotations

from ..journal.fastener_type import FastenerType
from ..journal.fasteners import FastenerIdentified, LossWrittenOff, ThingFound, ThingLost
from .accounts import is_no_longer_lost, put_pieces, take_pieces
from .fastener_set import Act
from .job import Job
from .ledger import LOST, UNKNOWN, Lot, account_named, is_alike
from .strays import Find, Loss


def lose(job: Job, e: ThingLost, act: Act) -> None:
    """A piece is missing: it leaves the account named, else the unknown one, else a bag counted short."""
    text = job.ledger.written(e.type)
    short = [name for name, c in job.containers.items() if c.counted and c.counted[1] < c.counted[2]]
    left = e.n
    for account in [account_named(e.source)] if e.source else [UNKNOWN, *short]:
        before = left
        for lot in list(job.ledger.lots(account)):
            if e.set is None or lot.set == e.set:
                left -= job.ledger.take(account, lot, left)
        _settle_count(job, account, before - left)
    job.ledger.put(LOST, Lot(e.set, text, False), e.n - is_no_longer_lost(job, e.set, e.n, act))
    seen = e.last_seen or act.time
    job.losses[e.loss] = Loss(e.loss, e.what, e.n, e.set, e.type, act, seen, e.opening, zone=e.zone)


def find(job: Job, e: ThingFound, act: Act) -> None:
    """A piece turned up; a matching type closes the loss it is said to close."""
    here = Find(e.find, e.what or "a piece", act, type=e.type, n=e.n)
    job.finds[e.find] = here
    loss = job.losses.get(e.matches) if e.matches else None
    if loss is not None and loss.closed is None and _fits_loss(loss, e.type):
        here.n = max(0, e.n - loss.n)
        loss.n -= e.n - here.n
        if loss.n <= 0:
            loss.closed = act
            here.closes = loss.name
        pieces = take_pieces(job, LOST, loss.set, n=e.n - here.n)
        if loss.set is not None:
            put_pieces(job, e.to or f"hand of {e.by}", pieces, act)
    elif loss is None and e.set is not None:
        pieces = take_pieces(job, UNKNOWN, e.set, n=e.n)
        here.n -= len(pieces)
        if pieces:
            put_pieces(job, e.to or f"hand of {e.by}", pieces, act)
    here.settled = None if here.n else act


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
