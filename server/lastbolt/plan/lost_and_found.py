"""Lost here, left over there: pieces of several jobs offered to each other, no proof (practice 8.15)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import NamedTuple

from ..journal.fastener_type import FastenerType
from ..state.job import Job
from ..state.ledger import is_alike

SAME_DAY = timedelta(hours=24)
"""How far apart losing and finding may lie; a guess, to be tuned."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A piece missing in one job that may be the one left over in another; only a person can say so."""

    missing_job: str
    missing: str
    left_job: str
    left: str
    type: str

    @property
    def sentence(self) -> str:
        """Say the offer, and that it proves nothing.

        >>> Offer("job 1", "L1", "job 2", "F3", "M6x20").sentence.partition(". ")[0]
        'M6x20: missing in job 1 (L1), left over in job 2 (F3)'
        """
        return (
            f"{self.type}: missing in {self.missing_job} ({self.missing}), left over in {self.left_job} "
            f"({self.left}). The same piece? Somebody must say so; it is no proof."
        )


class _Piece(NamedTuple):
    job: str
    name: str
    type: FastenerType
    time: datetime


def offers(jobs: Sequence[Job]) -> tuple[Offer, ...]:
    """Offer every open loss of one job each like piece that is left over in another on the same day."""
    left = [piece for job in jobs for piece in _left_over(job)]
    found = [
        Offer(lost.job, lost.name, piece.job, piece.name, str(piece.type))
        for lost in (piece for job in jobs for piece in _missing(job))
        for piece in left
        if piece.job != lost.job and _may_be_one(lost, piece)
    ]
    return tuple(sorted(found, key=lambda o: (o.missing_job, o.missing, o.left_job, o.left)))


def offers_of(jobs: Sequence[Job], name: str) -> tuple[Offer, ...]:
    """Give the offers that a job has a side in."""
    return tuple(offer for offer in offers(jobs) if name in (offer.missing_job, offer.left_job))


def _may_be_one(lost: _Piece, piece: _Piece) -> bool:
    known = lost.type.diameter_mm is not None and piece.type.diameter_mm is not None
    return known and is_alike(lost.type, piece.type) and abs(lost.time - piece.time) <= SAME_DAY


def _missing(job: Job) -> Iterator[_Piece]:
    for loss in job.losses.values():
        if loss.closed is None and loss.type is not None:
            yield _Piece(job.name, loss.name, loss.type, loss.act.time)


def _left_over(job: Job) -> Iterator[_Piece]:
    """Give finds without a home, and what still lies in a bag of a job that has ended."""
    for find in job.finds.values():
        if find.settled is None and find.type is not None:
            yield _Piece(job.name, find.name, find.type, find.act.time)
    if job.released is None and job.ended is None:
        return
    for name, container in job.containers.items():
        for kind in _kinds(job, name):
            if container.last is not None:
                yield _Piece(job.name, name, kind, container.last.time)


def _kinds(job: Job, container: str) -> Iterable[FastenerType]:
    texts = dict.fromkeys(lot.type for lot in job.ledger.lots(container) if lot.type)
    return [job.ledger.types[text] for text in texts if text in job.ledger.types]
