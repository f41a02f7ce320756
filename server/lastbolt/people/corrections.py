"""Who may void or replace whose entry (practice 3.2, rule 4); pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from uuid import UUID

from ..journal import AnyEntry
from ..journal.checking import Correction, EntryReplaced, ReleaseSigned, SecondChecked
from ..journal.people import HandoverAccepted, HandoverOffered, SignedOff

LEAST_REASON = 10
FIXED = frozenset({"id", "job", "device", "seq", "at", "by", "role", "kind", "prev"})
"""What a replacement never changes: who recorded what, where and when it was written down."""


def refusal(correction: Correction, role: str, before: Sequence[AnyEntry]) -> str | None:
    """Say why somebody of this role may not make a correction, or None; `before` is what came before it.

    One's own entry may be corrected by oneself as long as nobody has built upon it: no sign-off of one's own,
    no handover, second check of it or release since. All else takes a lead, and ten characters of reason.
    """
    if isinstance(correction, EntryReplaced) and (fixed := FIXED & set(correction.fields)):
        return f"A replacement cannot change {', '.join(sorted(fixed))}; void the entry and record it anew."
    by_id: Mapping[UUID, int] = {entry.id: place for place, entry in enumerate(before)}
    place = by_id.get(correction.entry)
    if place is None:
        if role == "lead":
            return None
        return "The entry to be corrected is not here yet; send it first, or ask a lead."
    target = before[place]
    why = _settled_by(target, correction.by, before[place + 1 :])
    if why is None:
        return None
    if role != "lead":
        return f"{why}; only a lead corrects it now."
    if len(correction.reason.strip()) < LEAST_REASON:
        return f"{why}; give a reason of at least {LEAST_REASON} characters."
    return None


def _settled_by(target: AnyEntry, by: str, since: Sequence[AnyEntry]) -> str | None:
    """Say what puts an entry out of the reach of the person who would correct it."""
    if target.by != by:
        return f"That entry is {target.by}'s"
    for later in since:
        match later:
            case ReleaseSigned():
                return "A release was signed since"
            case HandoverOffered() | HandoverAccepted():
                return "The job was handed over since"
            case SignedOff() if (later.person or later.by) == by and later.why != "break":
                return f"{by} signed off since"
            case SecondChecked() if _elements(target) & set(later.elements):
                return "A second person looked at it since"
            case _:
                pass
    return None


def _elements(entry: AnyEntry) -> set[str]:
    """Give the names of everything that an entry is about."""
    named = {value for value in vars(entry).values() if isinstance(value, str)}
    return named - {entry.kind, entry.by, entry.job, entry.device}
