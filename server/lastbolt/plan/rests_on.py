"""What was recorded later and rests on an entry: to be seen before that entry is corrected (practice 3.2)."""

from __future__ import annotations

from collections.abc import Sequence

from ..journal import AnyEntry, Happened
from ..state.fold import LOOKED, SUBJECTS_OF, WORK

WHOLE_CONTAINER = frozenset({"container-counted", "container-emptied", "handover-accepted", "photo-counted"})
"""What speaks of a bag or tray as a whole, and so of all that went into it."""
CONFIRMING = frozenset({"second-checked", "finding-decided", "step-done"})
OVER_ALL = frozenset({"release-signed", "release-asked"})
"""Said over the whole record as it stood then."""


def rests_on(timeline: Sequence[Happened], entry_id: str) -> tuple[Happened, ...]:
    """Give the entries that count, came later and build on one entry: same thing, same bag, or all of it.

    `timeline` holds the entries that count, in the order of what happened. A description alone rests on
    nothing. The answer is what to look at, not what to correct: nothing is corrected along with anything.
    """
    place = next((n for n, h in enumerate(timeline) if str(h.entry.id) == entry_id), None)
    if place is None:
        return ()
    entry = timeline[place].entry
    things, bags = _things(entry), _bags(entry)
    return tuple(h for h in timeline[place + 1 :] if _builds(h.entry, things, bags))


def _builds(later: AnyEntry, things: set[str], bags: set[str]) -> bool:
    if later.kind in OVER_ALL:
        return bool(things or bags)
    if later.kind in WHOLE_CONTAINER and _bags(later) & bags:
        return True
    if later.kind in WORK or later.kind in LOOKED or later.kind in CONFIRMING:
        return bool(_things(later) & things)
    return later.kind == "fasteners-moved" and bool(_things(later) & things or _bags(later) & bags)


def _things(entry: AnyEntry) -> set[str]:
    """Name what an entry is about, bags and trays aside."""
    fields = [field for field in SUBJECTS_OF[entry.kind] if field != "container"]
    named = [
        getattr(entry, field) for field in (*fields, "by_taking_off", "subject") if hasattr(entry, field)
    ]
    return {name for name in (*named, *getattr(entry, "elements", ())) if isinstance(name, str)}


def _bags(entry: AnyEntry) -> set[str]:
    """Name the bags and trays that an entry puts pieces into, takes them from, or looks at."""
    named = [getattr(entry, field, None) for field in ("to", "source", "container")]
    return {name for name in (*named, *getattr(entry, "containers", ())) if isinstance(name, str)}
