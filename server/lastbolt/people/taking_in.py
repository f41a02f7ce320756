"""Entries that come in from a device: which are recorded, which are held for a lead, which are refused."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass

from ..errors import BadInputError, NotAllowedError
from ..journal import AnyEntry, Raw, entry_from, raw_from
from ..journal.checking import Correction, DeviceReported, EntryReplaced, EntryVoided
from ..said import said
from .corrections import refusal
from .rights import Act, may, may_record
from .visit import LOCKED_AFTER, Here, Visit

Before = Callable[[], Sequence[AnyEntry]]
"""Gives the job's entries so far; asked only when one is to be corrected."""


@dataclass(frozen=True, slots=True)
class Sorted:
    """A parcel sorted: what goes into the journal, and what is held, each with the reason."""

    record: tuple[Raw, ...]
    hold: tuple[tuple[Raw, AnyEntry, str], ...]


def sort_out(visit: Visit, raws: Sequence[Raw], before: Before) -> Sorted:
    """Sort a parcel of sound entries by who stands at the device.

    Raises:
        BadInputError: an entry is unsound.
        NotAllowedError: names the first entry that this person may not record from here; nothing is taken.
    """
    entries = [entry_from(raw) for raw in raws]
    story: list[AnyEntry] | None = None
    for place, entry in enumerate(entries):
        here = _recorder(visit, entry)
        _need_role(here, entry)
        if isinstance(entry, EntryVoided | EntryReplaced):
            story = list(before()) if story is None else story
            if entry.id not in {each.id for each in story}:
                _need_right_to_correct(here, entry, [*story, *entries[:place]])
    record, hold = [], []
    for raw, entry in zip(raws, entries, strict=True):
        why = _why_held(visit, entry)
        if why is None:
            record.append(raw)
        else:
            hold.append((raw, entry, why))
    return Sorted(tuple(record), tuple(hold))


def _recorder(visit: Visit, entry: AnyEntry) -> Here:
    """Give who recorded an entry, who must have signed in on the very device that it names."""
    if entry.device != visit.device:
        raise NotAllowedError(
            said(
                "This device is {own}; an entry of {other} cannot come from it.",
                own=visit.device,
                other=entry.device,
            )
        )
    here = visit.named(entry.by)
    if here is None:
        raise NotAllowedError(
            said(
                "{who} has not signed in on this device, so nothing can be recorded in that name here.",
                who=entry.by,
            )
        )
    return here


def _need_role(here: Here, entry: AnyEntry) -> None:
    if not may(here.role, Act.WRITE):
        raise NotAllowedError(said("{who} is a reader, and readers record nothing.", who=here.name))
    if entry.kind == "release-signed":
        raise NotAllowedError("A release is signed at the desk, with a PIN; it is not sent in like an entry.")
    lost = isinstance(entry, DeviceReported) and entry.lost
    if here.role != "lead" and (lost or not may_record(here.role, entry.kind)):
        raise NotAllowedError(
            said(
                "{kind} needs a lead; {who} is a {role}.",
                kind=entry.kind,
                who=here.name,
                role=said(here.role),
            )
        )
    if entry.role == "lead" and here.role != "lead":
        raise NotAllowedError(said("{who} is no lead, but the entry says so.", who=here.name))


def _need_right_to_correct(here: Here, entry: Correction, story: Sequence[AnyEntry]) -> None:
    why = refusal(entry, here.role, story)
    if why:
        raise NotAllowedError(why)
    target = next((each for each in story if each.id == entry.entry), None)
    if target is not None and isinstance(entry, EntryReplaced):
        with suppress(BadInputError):
            _need_role(here, entry_from(raw_from(target) | entry.fields))


def _why_held(visit: Visit, entry: AnyEntry) -> str | None:
    """Say why an entry waits for a lead, or None where it goes straight into the journal."""
    here = visit.named(entry.by)
    assert here is not None
    if visit.cut:
        return "the device was cut off"
    if here.out_at is not None:
        return f"{here.name} was signed out on that device"
    within = here.pin_at <= entry.at < here.pin_at + LOCKED_AFTER
    if not here.is_in(visit.now) and not within:
        return f"{here.name}'s PIN was more than 12 hours old"
    return None
