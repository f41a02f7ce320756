"""How entries about openings, covers, items and kits change a job."""

from __future__ import annotations

from ..journal.machine import (
    Cleaned,
    ItemBroughtIn,
    ItemTakenOut,
    KitCounted,
    LookedInside,
    OpeningClosed,
    OpeningCovered,
    OpeningDescribed,
    OpeningOpened,
    OpeningUncovered,
)
from .elements import Item, Opening
from .fastener_set import Act
from .job import Job, Oddity

SHORT_JOIN_S = 120
"""A hose joined this soon after its cap came off is exempt from the look inside (practice C32)."""


def _named(job: Job, name: str) -> Opening:
    return job.openings.setdefault(name, Opening(name))


def describe_opening(job: Job, e: OpeningDescribed, act: Act) -> None:
    """Take down class and mouths."""
    here = _named(job, e.opening)
    here.described, here.mouths = e, e.mouths


def open_opening(job: Job, e: OpeningOpened, act: Act) -> None:
    """Open: bare until covered."""
    here = _named(job, e.opening)
    if here.open_since is not None:
        job.oddities.append(Oddity(e.opening, "it was opened twice and never shut between", 1, act))
    here.mouths = e.mouths or here.mouths
    here.taken_off_with = e.by_taking_off or here.taken_off_with
    here.open_since, here.looked, here.uncovered = act, None, None
    here.closed = here.closed_unseen = None
    if here.described and here.described.clean_first and here.cleaned is None:
        here.opened_dirty = act
    _keep_bare(here, act)


def _keep_bare(here: Opening, act: Act) -> None:
    """Keep the spells in which a mouth stood open with nothing on it."""
    running = bool(here.bare) and here.bare[-1][1] is None
    if here.is_bare and not running:
        here.bare.append((act.time, None))
    elif running and not here.is_bare:
        here.bare[-1] = (here.bare[-1][0], act.time)


def clean(job: Job, e: Cleaned, act: Act) -> None:
    """Cleaned around it."""
    _named(job, e.opening).cleaned = act


def cover(job: Job, e: OpeningCovered, act: Act) -> None:
    """Covers on; all mouths if no number is said."""
    here = _named(job, e.opening)
    stands_open = here.described is not None and here.described.always_open
    if here.open_since is None and not stands_open:
        job.oddities.append(Oddity(e.opening, "a cover went on where nothing was logged as open", 1, act))
    n = e.n or len(e.covers) or max(here.mouths - here.covers, 1)
    here.covers += n
    here.numbered.update(e.covers)
    here.cover_act = act
    _keep_bare(here, act)


def uncover(job: Job, e: OpeningUncovered, act: Act) -> None:
    """Covers off; all if no number is said."""
    here = _named(job, e.opening)
    n = e.n or len(e.covers) or max(here.covers, 1)
    here.covers -= n
    here.numbered.difference_update(e.covers)
    if not e.covers and here.covers <= 0:
        here.numbered.clear()
    here.cover_act = here.uncovered = act
    here.looked = None
    _keep_bare(here, act)


def look(job: Job, e: LookedInside, act: Act) -> None:
    """Looked in; a look that found something does not count, and takes back the one before it."""
    here = _named(job, e.opening)
    if not e.clear:
        here.looked = None
        if here.closed is not None and here.open_since is None and here.letter != "C":
            here.closed_unseen = act
        return
    seen_in = here.open_since is not None or e.how == "scope"
    here.looked, here.closed_unseen = act, None if seen_in else here.closed_unseen


def close(job: Job, e: OpeningClosed, act: Act) -> None:
    """Shut: seen into or not."""
    here = _named(job, e.opening)
    if here.open_since is None:
        job.oddities.append(Oddity(e.opening, "it was shut and was never logged as open", 1, act))
        here.closed = act
        return
    unseen = here.looked is None and here.letter != "C"
    soon = here.uncovered is not None and (act.time - here.uncovered.time).total_seconds() <= SHORT_JOIN_S
    here.closed, here.open_since = act, None
    here.closed_unseen = act if unseen and not (soon and here.letter == "B") else None
    here.cleaned = None
    _keep_bare(here, act)


def bring_in(job: Job, e: ItemBroughtIn, act: Act) -> None:
    """In, by the piece."""
    here = job.items.setdefault((e.item, e.opening), Item(e.item, e.opening))
    here.n += e.n
    here.act = act


def take_out(job: Job, e: ItemTakenOut, act: Act) -> None:
    """Out of the opening named, then of what went in nowhere named; if none is named, from wherever it is."""
    left = e.n
    known = [here for here in job.items.values() if here.name == e.item]
    for here in sorted(known, key=lambda here: here.opening != e.opening):
        if e.opening is None or here.opening in (e.opening, None):
            out = min(here.n, left)
            here.n -= out
            left -= out
            here.act = act if out else here.act
    if left:
        job.oddities.append(Oddity(e.item, "more came out than was logged as brought in", left, act))


def count_kit(job: Job, e: KitCounted, act: Act) -> None:
    """Whole or short."""
    job.kits[e.kit] = (act, e.complete and not e.missing, e.missing)
