"""Who was signed on to a machine when, and when nobody was: by the record, which knows only what was said."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import NamedTuple

from ..journal.order import Happened
from ..journal.people import HandoverAccepted, SignedOff, SignedOn


class Spell(NamedTuple):
    """A person had the machine from `since` until `until`, None to the end of the record."""

    person: str
    since: datetime
    until: datetime | None


class Gap(NamedTuple):
    """Nobody was signed on; `last` had signed off."""

    since: datetime
    until: datetime | None
    last: str


def spells(happened: Iterable[Happened]) -> tuple[Spell, ...]:
    """List who was signed on when, in the order of signing on."""
    running: dict[str, datetime] = {}
    done: list[Spell] = []
    for h in happened:
        e = h.entry
        if isinstance(e, SignedOn):
            running.setdefault(e.person or e.by, h.time)
        elif isinstance(e, HandoverAccepted):
            running.setdefault(e.by, h.time)
        elif isinstance(e, SignedOff):
            since = running.pop(e.person or e.by, None)
            if since is not None:
                done.append(Spell(e.person or e.by, since, h.time))
    done += [Spell(person, since, None) for person, since in running.items()]
    return tuple(sorted(done, key=lambda spell: (spell.since, spell.person)))


def alone(happened: Iterable[Happened]) -> tuple[Gap, ...]:
    """List when nobody was signed on, after somebody had been."""
    here: set[str] = set()
    gaps: list[Gap] = []
    open_gap: tuple[datetime, str] | None = None
    for h in happened:
        e = h.entry
        if isinstance(e, SignedOn | HandoverAccepted):
            here.add(e.person or e.by if isinstance(e, SignedOn) else e.by)
            if open_gap is not None:
                gaps.append(Gap(open_gap[0], h.time, open_gap[1]))
                open_gap = None
        elif isinstance(e, SignedOff):
            was_here = bool(here)
            here.discard(e.person or e.by)
            if was_here and not here:
                open_gap = (h.time, e.person or e.by)
    if open_gap is not None:
        gaps.append(Gap(open_gap[0], None, open_gap[1]))
    return tuple(gaps)
