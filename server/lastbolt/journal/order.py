"""The order of what happened: device clocks set right, corrections applied, each entry once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from ..errors import BadInputError
from .checking import ClockMarked, EntryReplaced, EntryVoided
from .codec import entry_from, raw_from
from .entries import AnyEntry, kinds

RANK = {kind: number for number, kind in enumerate(kinds())}
"""Within one instant the order of the vocabulary counts: taking apart before putting together."""
LAST_OF_AN_INSTANT = frozenset({"finding-decided", "release-asked", "release-signed", "start-asked"})
RANK_AMENDS = {
    "signed-off": 900, "container-counted": 700, "photo-counted": 700, "opening-closed": 800,
    "second-checked": 850, "test-run": 860, "handover-accepted": 40,
}  # fmt: skip


PROOFS = frozenset({"isolation-proven", "looked-inside", "cleaned"})
"""What must come before something else: written down late, it counts from then on (practice 3.2, rule 5)."""


@dataclass(frozen=True, slots=True)
class Happened:
    """An entry with the time at which it took place, its device's clock set right."""

    time: datetime
    entry: AnyEntry
    shifted: bool


def in_order(entries: Iterable[AnyEntry]) -> list[Happened]:
    """Sort entries by what happened, whatever their order of arrival and however often they came.

    The time is the device's own plus the correction of its clock marks; entries of one device never pass
    each other (practice 3.1). An entry that a mark shows to have been recorded before it cannot be moved
    behind that mark. Entries with one id count once.
    """
    once = {entry.id: entry for entry in entries}
    marks = _marks(once.values())
    by_device: dict[str, list[AnyEntry]] = defaultdict(list)
    for entry in once.values():
        by_device[entry.device].append(entry)
    keyed: list[tuple[datetime, int, str, int, str, Happened]] = []
    for device, own in by_device.items():
        keyed.extend(_keyed(device, sorted(own, key=lambda e: (e.seq, str(e.id))), marks.get(device, [])))
    keyed.sort(key=lambda row: row[:5])
    return [row[5] for row in keyed]


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
) -> list[tuple[datetime, int, str, int, str, Happened]]:
    rows: list[tuple[datetime, int, str, int, str, Happened]] = []
    floor: tuple[datetime, int] | None = None
    for entry in own:
        time = _time_of(entry, marks)
        key = (time, _rank(entry.kind))
        if entry.mode != "late" and not isinstance(entry, ClockMarked):
            floor = key = max(key, floor) if floor else key
        happened = Happened(key[0], entry, time != entry.at)
        rows.append((key[0], key[1], device, entry.seq, str(entry.id), happened))
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


def _rank(kind: str) -> int:
    return 1000 if kind in LAST_OF_AN_INSTANT else RANK_AMENDS.get(kind, RANK[kind])
