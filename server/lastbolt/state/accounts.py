"""Pieces into and out of accounts, with what a container notes of it."""

from __future__ import annotations

from collections import Counter

from .fastener_set import Act
from .job import Job
from .ledger import LOST, STORE, UNKNOWN, VIRTUAL, Lot, account_named
from .look_alikes import note_look_alikes
from .strays import Loss


def put_pieces(job: Job, account: str, pieces: list[Lot], act: Act) -> None:
    """Put pieces into an account; a container notes who did it and what lies together now.

    A piece of no set of which nobody knows where it is is lost: no set could ask for it.
    """
    account = account_named(account)
    if account == UNKNOWN:
        put_pieces(job, LOST, [lot for lot in pieces if lot.set is None], act)
        pieces = [lot for lot in pieces if lot.set is not None]
    alike = Counter(pieces)
    for lot, n in alike.items():
        job.ledger.put(account, lot, n)
        if account == UNKNOWN and lot.set is not None:
            job.set_named(lot.set).unknown_since = act
    if account == LOST:
        _note_lost(job, pieces, act)
    if account in VIRTUAL:
        return
    container = job.container_named(account)
    if container.emptied or container.first is None:
        container.first = act
    container.used, container.last, container.emptied = True, act, None
    container.counted = container.counted if not pieces else None
    container.held_new = container.held_new or any(lot.new for lot in alike)
    container.sets_seen.update(lot.set for lot in alike if lot.set)
    container.photos.extend(act.photos)
    note_look_alikes(job, container, act)


def _note_lost(job: Job, pieces: list[Lot], act: Act) -> None:
    """Make a loss, named after its set, of pieces that were only moved to the lost ones."""
    for lot in pieces:
        name = lot.set or lot.type or "piece"
        kind = job.ledger.types.get(lot.type)
        loss = job.losses.setdefault(name, Loss(name, name, 0, lot.set, kind, act, act.time, is_moved=True))
        loss.n += 1
        loss.pieces.append(lot)
        loss.closed = None


def no_longer_moved(job: Job, set_name: str | None, n: int, act: Act) -> list[Lot]:
    """Take up to n pieces off what was only moved to the lost ones; they stay in that account."""
    loss = next((x for x in job.losses.values() if x.is_moved and x.set == set_name and x.n > 0), None)
    if loss is None:
        return []
    taken, loss.pieces = loss.pieces[:n], loss.pieces[n:]
    loss.n -= len(taken)
    loss.closed = act if loss.n <= 0 else None
    return taken


def used_in_store(job: Job, account: str, set_name: str | None) -> Lot | None:
    """Take a used piece of a set that was given back to the store: what comes from there next is that one."""
    lots = job.ledger.lots(account) if account == STORE and set_name else {}
    used = next((lot for lot in lots if lot.set == set_name and not lot.new), None)
    return used if used is not None and job.ledger.take(account, used, 1) else None


def take_pieces(job: Job, account: str, set_name: str | None, *, n: int) -> list[Lot]:
    """Take up to n pieces of a set out of an account."""
    pieces: list[Lot] = []
    for lot in list(job.ledger.lots(account)):
        if lot.set == set_name and len(pieces) < n:
            pieces += [lot] * job.ledger.take(account, lot, n - len(pieces))
    return pieces
