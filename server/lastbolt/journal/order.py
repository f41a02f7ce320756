"""The order of what happened: device clocks set right, corrections applied, each entry once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from operator import attrgetter
from typing import NamedTuple
from uuid import UUID

from ..errors import BadInputError
from .checking import Correction, EntryReplaced, EntryVoided
from .codec import canonical, entry_from, raw_from
from .entries import AnyEntry, kinds

RANK = {kind: number for number, kind in enumerate(kinds())}
"""Within one instant the order of the vocabulary counts: taking apart before putting together."""
LAST_OF_AN_INSTANT = frozenset({"finding-decided", "release-asked", "release-signed", "start-asked"})
RANK_AMENDS = {
    "signed-off": 900, "container-counted": 700, "photo-counted": 700, "reading-corrected": 710,
    "opening-closed": 800, "second-checked": 850, "test-run": 860, "handover-accepted": 40,
}  # fmt: skip


RANKS = RANK | RANK_AMENDS | dict.fromkeys(LAST_OF_AN_INSTANT, 1000)
CORRECTIONS = frozenset({"entry-voided", "entry-replaced"})
PROOFS = frozenset({"isolation-proven", "looked-inside", "cleaned"})
"""What must come before something else: written down late, it counts from then on (practice 3.2, rule 5)."""


class Happened(NamedTuple):
    """An entry with the time at which it took place, its device's clock set right.

    `written` is when it was written down, later than `time` for a late entry. For a correction that counts
    `corrects` is the entry that it is about, as that was recorded.
    """

    time: datetime
    entry: AnyEntry
    shifted: bool
    written: datetime
    corrects: AnyEntry | None = None


_Row = tuple[datetime, int, str, int, int, int, Happened]
"""What it is sorted by: time, rank, device and number there; 1 for what was sorted from a photo; the id."""


def in_order(entries: Iterable[AnyEntry]) -> list[Happened]:
    """Sort entries by what happened, whatever their order of arrival and however often they came.

    The time is the device's own plus the correction of its clock marks; entries of one device never pass
    each other (practice 3.1). An entry that a mark shows to have been recorded before it cannot be moved
    behind that mark. Entries with one id count once; if they differ, the same one whatever came first.
    What was sorted from a photo stands right behind that photo.
    """
    once = _once(entries)
    marks = _marks(once)
    by_device: dict[str, list[AnyEntry]] = defaultdict(list)
    for entry in once:
        by_device[entry.device].append(entry)
    rows: list[_Row] = []
    for device, own in by_device.items():
        rows.extend(_rows(device, _as_numbered(own), marks.get(device, [])))
    rows.sort()
    if any(row[-1].entry.mode == "late" and row[-1].entry.photos for row in rows):
        rows = sorted(_behind_photos(rows))
    return [row[-1] for row in rows]


def _behind_photos(rows: Sequence[_Row]) -> Iterator[_Row]:
    """Put what was sorted from a photo behind it: the phone that took it may not be the one that sorts."""
    shot: dict[tuple[str, str, datetime], _Row] = {}
    for row in rows:
        e = row[-1].entry
        if e.kind == "photo-added" and e.mode != "late":
            shot.setdefault((e.job, e.photo, e.at), row)
    for row in rows:
        e = row[-1].entry
        at = e.happened_at if e.mode == "late" and e.kind not in PROOFS else None
        behind = next(
            (shot[e.job, photo, at] for photo in e.photos if at and (e.job, photo, at) in shot), None
        )
        if behind is None:
            yield row
        else:
            yield (*behind[:4], 1, e.id.int, row[-1]._replace(time=behind[0]))


def _as_numbered(own: list[AnyEntry]) -> list[AnyEntry]:
    """Sort one device's entries by its numbers; where a number is given twice, by its clock."""
    if len({entry.seq for entry in own}) == len(own):
        return sorted(own, key=attrgetter("seq"))
    return sorted(own, key=lambda e: (e.at, e.seq, e.id.int))


def _once(entries: Iterable[AnyEntry]) -> Collection[AnyEntry]:
    once: dict[int, AnyEntry] = {}
    for entry in entries:
        seen = once.setdefault(entry.id.int, entry)
        if seen is not entry and seen != entry:
            once[entry.id.int] = min(seen, entry, key=lambda e: canonical(raw_from(e)))
    return once.values()


def effective(happened: Sequence[Happened]) -> list[Happened]:
    """Leave out voided entries and put the newest replacement in place of what it replaces.

    A replacement that does not give a sound entry is passed over; the entry counts as first recorded.
    Corrections of corrections work, whatever the clocks of their devices said: a voided void leaves its entry
    standing. Where a correction changes when something happened, all are put in order anew.
    """
    corrections = [
        h.entry for h in happened if h.entry.kind == "entry-voided" or h.entry.kind == "entry-replaced"
    ]
    if not corrections:
        return list(happened)
    void, changed = _settled(corrections)
    by_id = {h.entry.id: h.entry for h in happened}
    about = {each.id: _target(each, by_id) for each in corrections}
    kept = [
        h._replace(entry=_amended(h.entry, changed.get(h.entry.id)), corrects=about.get(h.entry.id))
        for h in happened
        if h.entry.id not in void
    ]
    if any(_moves(entry, changed.get(entry.id), gone=entry.id in void) for entry in by_id.values()):
        return [h._replace(corrects=about.get(h.entry.id)) for h in in_order(h.entry for h in kept)]
    return kept


def _settled(corrections: Sequence[Correction]) -> tuple[set[UUID], dict[UUID, EntryReplaced]]:
    """Say which entries do not count, and which replacement each of the others gets.

    A correction is settled once all that correct it are; only where some go round in a circle, which nobody
    can have meant, does the newest come first.
    """
    void: set[UUID] = set()
    changed: dict[UUID, EntryReplaced] = {}
    place = {each.id: number for number, each in enumerate(corrections)}
    waiting = {each.id: each for each in corrections}
    while waiting:
        named = {each.entry for each in waiting.values()}
        free = [one for one in waiting if one not in named] or [max(waiting, key=place.__getitem__)]
        for one in free:
            entry = _amended(waiting.pop(one), changed.get(one))
            if one in void:
                continue
            if isinstance(entry, EntryVoided):
                void.add(entry.entry)
            elif isinstance(entry, EntryReplaced):
                before = changed.get(entry.entry)
                if before is None or place[before.id] < place[one]:
                    changed[entry.entry] = entry
    return void, changed


def _target(correction: Correction, by_id: Mapping[UUID, AnyEntry]) -> AnyEntry | None:
    """Give the entry that a correction is about in the end: for a voided void, what that had voided."""
    seen: set[UUID] = set()
    target = by_id.get(correction.entry)
    while isinstance(target, EntryVoided | EntryReplaced) and target.id not in seen:
        seen.add(target.id)
        target = by_id.get(target.entry)
    return target


def _amended(entry: AnyEntry, by: EntryReplaced | None) -> AnyEntry:
    if by is None:
        return entry
    frozen = {"id", "job", "device", "seq", "at", "by", "kind"}
    raw = raw_from(entry) | {k: v for k, v in by.fields.items() if k not in frozen}
    try:
        return entry_from(raw)
    except BadInputError:
        return entry


def _moves(entry: AnyEntry, by: EntryReplaced | None, *, gone: bool) -> bool:
    """Tell whether a correction changes when something happened: a clock mark, a late entry's time."""
    if entry.kind == "clock-marked":
        return gone or by is not None
    return by is not None and bool(by.fields.keys() & {"mode", "happened_at"})


def _marks(entries: Iterable[AnyEntry]) -> dict[str, list[tuple[datetime, timedelta]]]:
    marks: dict[str, list[tuple[datetime, timedelta]]] = defaultdict(list)
    for entry in entries:
        if entry.kind == "clock-marked":
            marks[entry.marked_device].append((entry.at, timedelta(seconds=entry.offset_s)))
    for own in marks.values():
        own.sort()
    return marks


def _rows(device: str, own: list[AnyEntry], marks: list[tuple[datetime, timedelta]]) -> Iterator[_Row]:
    floor: tuple[datetime, int] | None = None
    for entry in own:
        at = entry.at
        set_right = _corrected(at, marks) if marks else at
        time = _time_of(entry, set_right)
        key = (time, RANKS[entry.kind])
        if entry.mode != "late" and entry.kind != "clock-marked":
            floor = key = key if floor is None or key >= floor else floor
        moment, rank = key
        is_shifted = time is not at and time != at
        written = moment if set_right <= moment else set_right
        yield moment, rank, device, entry.seq, 0, entry.id.int, Happened(moment, entry, is_shifted, written)


def _time_of(entry: AnyEntry, set_right: datetime) -> datetime:
    if entry.mode == "late" and entry.happened_at is not None and entry.kind not in PROOFS:
        return entry.happened_at
    return entry.at if entry.kind == "clock-marked" else set_right


def _corrected(at: datetime, marks: list[tuple[datetime, timedelta]]) -> datetime:
    """Set a device's time right by the first clock mark that it does not put it behind, else by the last.

    What a device had sent by the time of a mark cannot have happened later: it is left as it was said.
    """
    for marked_at, offset in marks:
        if at - offset <= marked_at:
            return at - offset
        if at <= marked_at:
            return at
    return at - marks[-1][1] if marks else at
