"""Pieces into and out of accounts, with what a container notes of it."""

from __future__ import annotations

from .fastener_set import Act
from .job import Job
from .ledger import VIRTUAL, Lot, account_named
from .look_alikes import note_look_alikes


def put_pieces(job: Job, account: str, pieces: list[Lot], act: Act) -> None:
    """Put pieces into an account; a container notes who did it and what lies together now."""
    account = account_named(account)
    for lot in pieces:
        job.ledger.put(account, lot, 1)
    if account in VIRTUAL:
        return
    container = job.container_named(account)
    if container.emptied or container.first is None:
        container.first = act
    container.used, container.last, container.emptied = True, act, None
    container.counted = container.counted if not pieces else None
    container.sets_seen.update(lot.set for lot in pieces if lot.set)
    container.photos.extend(act.photos)
    note_look_alikes(job, container, act)


def take_pieces(job: Job, account: str, set_name: str | None, *, n: int) -> list[Lot]:
    """Take up to n pieces of a set out of an account."""
    pieces: list[Lot] = []
    for lot in list(job.ledger.lots(account)):
        if lot.set == set_name and len(pieces) < n:
            pieces += [lot] * job.ledger.take(account, lot, n - len(pieces))
    return pieces
