"""Found pieces that may be another machine's: two jobs miss one alike, and one is found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from .job import Job
from .ledger import is_alike
from .strays import Find, Loss


def contested(job: Job, others: Iterable[Job]) -> Iterator[tuple[Loss, Find, Job]]:
    """Name each loss that a find closed while another job misses a piece like it (practice C07).

    Saying which set the find is of, or that it is not of this machine, settles whose it is.
    """
    elsewhere = [
        (other, twin) for other in others for twin in other.losses.values() if _is_missed(other, twin)
    ]
    for loss in job.losses.values():
        if loss.closed is None or loss.type is None:
            continue
        find = next((f for f in job.finds.values() if f.closes == loss.name and f.identified is None), None)
        kind = (find.type if find else None) or loss.type
        for other, twin in elsewhere:
            if find is not None and twin.type is not None and is_alike(twin.type, kind):
                yield loss, find, other
                break


def _is_missed(other: Job, loss: Loss) -> bool:
    return loss.closed is None and loss.written_off is None and other.ended is None
