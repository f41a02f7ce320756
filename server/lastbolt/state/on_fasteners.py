"""How entries about sets of fasteners change a job: what they are, out and in."""

from __future__ import annotations

from ..journal.fastener_type import FastenerType
from ..journal.fasteners import (
    FastenersFitted,
    FastenersRemoved,
    SetDescribed,
)
from .accounts import no_longer_moved, put_pieces, used_in_store
from .fastener_set import EMPTY, FINAL, PARKED, PLACED, Act, FastenerSet, Hole
from .guessed import settle_full, settle_open
from .job import Job, Oddity
from .ledger import HOLE, LOST, NEW, STORE, UNKNOWN, VIRTUAL, Lot, account_named, is_alike
from .picture_counts import note_logged


def describe_set(job: Job, e: SetDescribed, act: Act) -> None:
    """Take down what a set is; its holes begin untouched, those beyond its number were never there."""
    group = job.set_named(e.set)
    group.described = e
    for number in [n for n, hole in group.holes.items() if n > e.n and not hole.touched]:
        del group.holes[number]
    for number in range(1, e.n + 1):
        group.hole(number)


def remove(job: Job, e: FastenersRemoved, act: Act) -> None:
    """Holes to container; what was not bagged goes to the unknown account."""
    if account_named(e.to or "") == HOLE:
        e = e.model_copy(update={"parked": True, "to": None})
    group = job.set_named(e.set)
    group.removed.append(act)
    holes, excess = _full_holes(job, group, e)
    if excess and group.described is not None:
        job.oddities.append(Oddity(e.set, "more came out than the set has in its holes", excess, act))
    if e.n is not None and e.n < len(e.holes):
        job.oddities.append(Oddity(e.set, "fewer were counted than holes are named", len(e.holes) - e.n, act))
    pieces = _emptied(job, group, holes, e=e)
    pieces += [Lot(e.set, job.ledger.written(e.type or group.wanted(1)), False)] * (
        excess if group.described is not None else 0
    )
    _undo_neighbours(group, holes, act)
    spend_renewals(job, e.set, len(holes), act)
    if e.parked:
        return
    bag = e.to or f"hand of {e.by}"
    bagged = len(pieces) if e.bagged is None else e.bagged
    if bagged > len(pieces):
        job.oddities.append(Oddity(e.set, "more was bagged than came out", bagged - len(pieces), act))
        pieces += [pieces[-1] if pieces else Lot(e.set, "", False)] * (bagged - len(pieces))
    put_pieces(job, bag, pieces[:bagged], act)
    if act.photos:
        note_logged(job, bag, act)
    put_pieces(job, UNKNOWN, pieces[bagged:], act)


def _full_holes(job: Job, group: FastenerSet, e: FastenersRemoved) -> tuple[list[Hole], int]:
    """Choose the holes that an entry empties, and count what it takes beyond the holes there are."""
    if e.holes:
        settle_full(group, e.holes)
        chosen = [group.hole(number) for number in dict.fromkeys(e.holes)]
        full = [h for h in chosen if h.reach is not EMPTY]
        more = _others(group, chosen, max(0, (e.n or 0) - len(chosen)))
        unnamed = max(0, (e.n or 0) - len(chosen) - len(more))
        return [*full, *more], len(chosen) - len(full) + unnamed
    if group.described is None:
        for number in range(1, (e.n or 1) + 1):
            group.hole(number)
    full = [h for h in sorted(group.holes.values(), key=lambda h: h.number) if h.reach is not EMPTY]
    wanted = e.n if e.n is not None else max(len(full), 1)
    missing = max(0, wanted - len(full))
    if group.described is None and missing:
        first = max(group.holes, default=0) + 1
        full += [group.hole(number) for number in range(first, first + missing)]
        missing = 0
    for hole in full[:wanted] if len(full) > wanted else ():
        hole.by_count = True
    return full[:wanted], missing


def _others(group: FastenerSet, chosen: list[Hole], n: int) -> list[Hole]:
    """Give n more full holes where an entry counts more pieces than it names holes."""
    here = {hole.number for hole in chosen}
    full = [h for h in group.holes.values() if h.number not in here and h.reach is not EMPTY]
    return sorted(full, key=lambda h: (h.touched, h.number))[:n]


def _emptied(job: Job, group: FastenerSet, holes: list[Hole], *, e: FastenersRemoved) -> list[Lot]:
    """Empty holes; give what came out of each."""
    pieces: list[Lot] = []
    for hole in holes:
        kind = e.type or hole.type or group.wanted(hole.number)
        hole.touched, hole.loose, hole.undone, hole.fitted = True, None, None, None
        hole.reach, hole.type = (PARKED, kind) if e.parked else (EMPTY, None)
        hole.forget_pulls()
        hole.tools, hole.new = {}, False
        text = job.ledger.written(kind)
        is_as_before = bool(pieces) and pieces[-1].type == text
        pieces.append(pieces[-1] if is_as_before else Lot(group.name, text, False))
    return pieces


def _undo_neighbours(group: FastenerSet, opened: list[Hole], act: Act) -> None:
    """In a joint that goes as one, opening one fastener undoes what was pulled on the others."""
    if not group.goes_as_one:
        return
    numbers = {hole.number for hole in opened}
    for hole in group.holes.values():
        if hole.number not in numbers and hole.touched and hole.reach is FINAL and hole.pulls:
            hole.undone = act
            hole.forget_pulls()


def spend_renewals(job: Job, set_name: str, n: int, act: Act) -> None:
    """Opening fasteners spends what was renewed on them: split pins, locking tabs, stretch washers."""
    for renewal in job.renewals.values():
        if renewal.needed and renewal.needed.set == set_name and renewal.fitted and n:
            renewal.fitted = max(0, renewal.fitted - n)
            renewal.seen_off = max(0, renewal.seen_off - n)
            renewal.spent = act


def loosen(group: FastenerSet, holes: list[Hole], act: Act) -> None:
    """Slacken holes: confirmations on them, and on the whole joint where it goes as one, are void."""
    group.slackened = act
    for hole in holes:
        was_pulled = bool(hole.pulls) and hole.reach is FINAL
        hole.touched, hole.worked = True, act
        hole.forget_pulls()
        if was_pulled or hole.undone:
            hole.undone = act
        else:
            hole.loose = act
    _undo_neighbours(group, holes, act)


def fit(job: Job, e: FastenersFitted, act: Act) -> None:
    """Container to holes; what a container or the set cannot give is more than was logged."""
    named = account_named(e.source or "")
    if named != (e.source or ""):
        e = e.model_copy(update={"source": named})
    if named == HOLE:
        e = e.model_copy(update={"source": None})
    group = job.set_named(e.set)
    holes, excess = _open_holes(job, group, e)
    short = 0
    if not _fit_alike(job, group, holes, e=e, act=act):
        short = _fit_one_by_one(job, group, holes, e=e, act=act)
    for _ in range(excess):
        _drawn(job, group, e, None)
    if short or excess:
        job.oddities.append(Oddity(e.set, "more was fitted than was logged as out", max(short, excess), act))
    group.fitted_by.add(e.by)
    group.done.append(act)
    if e.source and e.source not in VIRTUAL:
        container = job.container_named(e.source)
        container.last, container.used = act, True


def _fit_alike(job: Job, group: FastenerSet, holes: list[Hole], *, e: FastenersFitted, act: Act) -> bool:
    """Fit all holes from a container that holds enough of what each wants; tell whether that was so."""
    if not holes or not e.source or e.source in VIRTUAL:
        return False
    kind = group.wanted(holes[0].number)
    if any(hole.reach is PARKED or group.wanted(hole.number) is not kind for hole in holes):
        return False
    lot = Lot(group.name, job.ledger.written(e.type or kind), e.new)
    if job.ledger.lots(e.source).get(lot, 0) < len(holes):
        return False
    job.ledger.take(e.source, lot, len(holes))
    for hole in holes:
        hole.type, hole.new = e.type or kind, lot.new
        _seat(group, hole, e, act=act)
    return True


def _fit_one_by_one(job: Job, group: FastenerSet, holes: list[Hole], *, e: FastenersFitted, act: Act) -> int:
    """Fit each hole with the likeliest piece; give how many pieces were not where the entry says."""
    short = 0
    wrong_bag = bool(e.source) and e.type is None and not job.ledger.balance(e.source or "", e.set)
    for hole in holes:
        if hole.reach is PARKED and e.source is None:
            _seat(group, hole, e, act=act)
            continue
        if hole.reach is PARKED:
            put_pieces(job, UNKNOWN, [Lot(group.name, job.ledger.written(hole.type), False)], act)
        lot, found = _drawn(job, group, e, hole)
        if not found and wrong_bag:
            lot, found = _stranger(job, group, e, hole=hole)
        short += not found
        if found and e.source == LOST:
            no_longer_moved(job, group.name, 1, act)
        wanted = group.wanted(hole.number)
        as_wanted = wanted if lot.type == job.ledger.written(wanted) else None
        hole.type = e.type or as_wanted or job.ledger.types.get(lot.type) or wanted
        hole.new = lot.new
        _seat(group, hole, e, act=act)
    return short


def _open_holes(job: Job, group: FastenerSet, e: FastenersFitted) -> tuple[list[Hole], int]:
    if e.holes:
        settle_open(group, e.holes)
        named = list(dict.fromkeys(e.holes))
        chosen = [group.hole(number) for number in named][: e.n]
        empty = [h for h in chosen if h.reach in (EMPTY, PARKED)]
        more = max(0, (e.n or 0) - len(named))
        return empty, len(chosen) - len(empty) + more
    empty = [h for h in group.holes.values() if h.reach in (EMPTY, PARKED)]
    empty.sort(key=lambda h: (not h.touched, (h.reach is PARKED) is bool(e.source), h.number))
    wanted = e.n if e.n is not None else max(len(empty), 1)
    if group.described is None and not group.holes:
        return [], wanted
    return empty[:wanted], max(0, wanted - len(empty))


def seat(hole: Hole, act: Act, *, is_new: bool) -> None:
    """Put a piece into a hole; how tight it is there is for whoever put it in to say."""
    hole.fitted = hole.worked = act
    hole.touched = True
    hole.new = hole.new or is_new
    hole.reused = not hole.new
    hole.reuses = hole.reuses + 1 if hole.reused else 0
    hole.never_there = False
    hole.loose = hole.undone = None
    hole.forget_pulls()


def _seat(group: FastenerSet, hole: Hole, e: FastenersFitted, *, act: Act) -> None:
    seat(hole, act, is_new=e.new)
    hole.loose = None if e.tight or group.has_value else act
    hole.reach = PLACED if group.has_value or not e.tight else FINAL


def _drawn(job: Job, group: FastenerSet, e: FastenersFitted, hole: Hole | None) -> tuple[Lot, bool]:
    """Take one piece for a hole from where the entry says; tell whether it was there."""
    wanted = e.type or (group.wanted(hole.number) if hole else group.wanted(1))
    text = job.ledger.written(wanted)
    if e.source in (NEW, STORE):
        used = None if e.new else used_in_store(job, e.source, group.name)
        return used or Lot(group.name, text, True), True
    likeliest = Lot(group.name, text, e.new)
    if e.source and job.ledger.take(e.source, likeliest, 1):
        return likeliest, True
    if e.new and e.source in job.containers and not job.containers[e.source].held_new and hole is not None:
        return likeliest, True
    accounts = [e.source] if e.source else [c for c in job.containers if job.ledger.balance(c, group.name)]
    for account in accounts:
        for lot in _by_likeness(job, account, group.name, wanted=wanted, new_first=e.new):
            if e.type is not None and lot.type and lot.type != text and not _same(job, lot, e.type):
                continue
            job.ledger.take(account, lot, 1)
            return lot, True
    return likeliest, e.new and hole is not None and e.source not in job.containers


def _stranger(job: Job, group: FastenerSet, e: FastenersFitted, *, hole: Hole) -> tuple[Lot, bool]:
    """Take another set's piece of the same kind: the bag named holds none of this set, so those went in."""
    wanted = group.wanted(hole.number)
    for lot in list(job.ledger.lots(e.source or "")):
        known = job.ledger.types.get(lot.type)
        if wanted is None or known is None or known.kind == wanted.kind:
            job.ledger.take(e.source or "", lot, 1)
            return lot, True
    return Lot(group.name, job.ledger.written(wanted), e.new), False


def _same(job: Job, lot: Lot, kind: FastenerType) -> bool:
    known = job.ledger.types.get(lot.type)
    return known is not None and is_alike(kind, known)


def _by_likeness(
    job: Job, account: str, set_name: str, *, wanted: FastenerType | None, new_first: bool
) -> list[Lot]:
    """Order an account's lots: this set's and the wanted type first."""

    def distance(lot: Lot) -> tuple[bool, bool, bool]:
        alike = wanted is None or not lot.type or _same(job, lot, wanted)
        return (lot.set != set_name, not alike, lot.new is not new_first)

    lots = [
        lot for lot in job.ledger.lots(account) if lot.set in (set_name, None) or _matches(job, lot, wanted)
    ]
    return sorted(lots, key=distance)


def _matches(job: Job, lot: Lot, wanted: FastenerType | None) -> bool:
    return wanted is not None and bool(lot.type) and _same(job, lot, wanted)
