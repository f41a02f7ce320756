"""The order of what happened: device clocks set right, corrections applied, each entry once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from ..errors import BadInputError
from .checking import ClockMarked, EntryReplaced, EntryVoided
from .codec import canonical, entry_from, raw_from
from .entries import AnyEntry, kinds
from .evidence import PhotoAdded

RANK = {kind: number for number, kind in enumerate(kinds())}
"""Within one instant the order of the vocabulary counts: taking apart before putting together."""
LAST_OF_AN_INSTANT = frozenset({"finding-decided", "release-asked", "release-signed", "start-asked"})
RANK_AMENDS = {
    "signed-off": 900, "container-counted": 700, "photo-counted": 700, "reading-corrected": 710,
    "opening-closed": 800, "second-checked": 850, "test-run": 860, "handover-accepted": 40,
}  # fmt: skip


RANKS = RANK | RANK_AMENDS | dict.fromkeys(LAST_OF_AN_INSTANT, 1000)
PROOFS = frozenset({"isolation-proven", "looked-inside", "cleaned"})
"""What must come before something else: written down late, it counts from then on (practice 3.2, rule 5)."""
_Key = tuple[datetime, int, str, int, int, int]
"""Time, rank, device and number there; 1 for what was sorted from the photo with that key; the id."""


class Happened(NamedTuple):
    """An entry with the time at which it took place, its device's clock set right."""

    time: datetime
    entry: AnyEntry
    shifted: bool


def in_order(entries: Iterable[AnyEntry]) -> list[Happened]:
    """Sort entries by what happened, whatever their order of arrival and however often they came.

    The time is the device's own plus the correction of its clock marks; entries of one device never pass
    each other (practice 3.1). An entry that a mark shows to have been recorded before it cannot be moved
    behind that mark. Entries with one id count once; if they differ, the same one whatever came first.
    What was sorted from a photo stands right behind that photo.
    """
    once = _once(entries)
    marks = _marks(once.values())
    by_device: dict[str, list[AnyEntry]] = defaultdict(list)
    for entry in once.values():
        by_device[entry.device].append(entry)
    keyed: list[tuple[_Key, Happened]] = []
    for device, own in by_device.items():
        keyed.extend(_keyed(device, _as_numbered(own), marks.get(device, [])))
    return [happened for _, happened in sorted(_behind_photos(keyed), key=lambda row: row[0])]


def _behind_photos(keyed: list[tuple[_Key, Happened]]) -> Iterator[tuple[_Key, Happened]]:
    """Put what was sorted from a photo behind it: the phone that took it may not be the one that sorts."""
    shot = {
        (h.entry.job, h.entry.photo, h.entry.at): key
        for key, h in keyed
        if isinstance(h.entry, PhotoAdded) and h.entry.mode != "late"
    }
    for key, h in keyed:
        e = h.entry
        at = e.happened_at if e.mode == "late" and e.kind not in PROOFS else None
        behind = next(
            (shot[e.job, photo, at] for photo in e.photos if at and (e.job, photo, at) in shot), None
        )
        if behind is None:
            yield key, h
        else:
            yield (*behind[:4], 1, e.id.int), Happened(behind[0], e, h.shifted)


def _as_numbered(own: list[AnyEntry]) -> list[AnyEntry]:
    """Sort one device's entries by its numbers; where a number is given twice, by its clock."""
    if len({entry.seq for entry in own}) == len(own):
        return sorted(own, key=lambda e: (e.seq, e.id.int))
    return sorted(own, key=lambda e: (e.at, e.seq, e.id.int))


def _once(entries: Iterable[AnyEntry]) -> dict[UUID, AnyEntry]:
    once: dict[UUID, AnyEntry] = {}
    for entry in entries:
        seen = once.setdefault(entry.id, entry)
        if seen is not entry and seen != entry:
            once[entry.id] = min(seen, entry, key=lambda e: canonical(raw_from(e)))
    return once


def effective(happened: Sequence[Happened]) -> list[Happened]:
    """Leave out voided entries and put the newest replacement in place of what it replaces.

    A replacement that does not give a sound entry is passed over; the entry counts as first recorded.
    Corrections of corrections work: a voided void leaves its entry standing.
    """
    corrections = [h for h in happened if isinstance(h.entry, EntryVoided | EntryReplaced)]
    if not corrections:
        return list(happened)
    void: set[object] = set()
    for h in reversed(corrections):
        if isinstance(h.entry, EntryVoided) and h.entry.id not in void:
            void.add(h.entry.entry)
    changed: dict[object, EntryReplaced] = {}
    for h in corrections:
        if isinstance(h.entry, EntryReplaced) and h.entry.id not in void:
            changed[h.entry.entry] = h.entry
    kept = (h for h in happened if h.entry.id not in void)
    return [_amended(h, changed[h.entry.id]) if h.entry.id in changed else h for h in kept]


def _amended(h: Happened, by: EntryReplaced) -> Happened:
    frozen = {"id", "job", "device", "seq", "at", "by", "kind"}
    raw = raw_from(h.entry) | {k: v for k, v in by.fields.items() if k not in frozen}
    try:
        return Happened(h.time, entry_from(raw), h.shifted)
    except BadInputError:
        return h


def _marks(entries: Iterable[AnyEntry]) -> dict[str, list[tuple[datetime, timedelta]]]:
    marks: dict[str, list[tuple[datetime, timedelta]]] = defaultdict(list)
    for entry in entries:
        if isinstance(entry, ClockMarked):
            marks[entry.marked_device].append((entry.at, timedelta(seconds=entry.offset_s)))
    for own in marks.values():
        own.sort()
    return marks


def _keyed(
    device: str, own: list[AnyEntry], marks: list[tuple[datetime, timedelta]]
) -> list[tuple[_Key, Happened]]:
    rows: list[tuple[_Key, Happened]] = []
    floor: tuple[datetime, int] | None = None
    for entry in own:
        time = _time_of(entry, marks)
        key = (time, RANKS[entry.kind])
        if entry.mode != "late" and not isinstance(entry, ClockMarked):
            floor = key = max(key, floor) if floor else key
        happened = Happened(key[0], entry, time != entry.at)
        rows.append(((key[0], key[1], device, entry.seq, 0, entry.id.int), happened))
    return rows


def _time_of(entry: AnyEntry, marks: list[tuple[datetime, timedelta]]) -> datetime:
    if entry.mode == "late" and entry.happened_at is not None and entry.kind not in PROOFS:
        return entry.happened_at
    if isinstance(entry, ClockMarked):
        return entry.at
    for marked_at, offset in marks:
        if entry.at - offset <= marked_at:
            return entry.at - offset
        if entry.at <= marked_at:
            return entry.at
    return entry.at - marks[-1][1] if marks else entry.at
