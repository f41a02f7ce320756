"""Entries and names as they come from a device, held against who is signed in on it."""

from __future__ import annotations

from collections.abc import Sequence

from ..actions.verify import entries_of
from ..errors import NotAllowedError
from ..journal import AnyEntry, Line, Raw
from ..people.rights import Act, may
from ..people.taking_in import sort_out
from ..people.visit import Visit
from ..said import said
from .desk import Desk


def take_in(desk: Desk, visit: Visit, job: str, raws: Sequence[Raw]) -> tuple[list[Line], int]:
    """Record what may go in, hold what a lead must see; give the lines, and how many are held.

    Raises:
        BadInputError: an entry is unsound, or of another job; nothing was taken.
        NotAllowedError: an entry may not be recorded by that person from this device; nothing was taken.
    """

    def before() -> Sequence[AnyEntry]:
        return entries_of(desk.wired.journal.lines(job))

    found = sort_out(visit, raws, before)
    hold = found.hold
    record = list(found.record)
    if hold:
        here = {str(entry.id) for entry in before()}
        record += [raw for raw, entry, _ in hold if str(entry.id) in here]
        hold = tuple(each for each in hold if str(each[1].id) not in here)
    desk.wired.people.held.hold(job, hold)
    lines = desk.record(job, record) if record else []
    if hold:
        desk.note_held(job, visit.device)
    return lines, len(hold)


def named_here(visit: Visit, by: str | None) -> str:
    """Give in whose name something is recorded: who holds the device, or another who is signed in on it.

    Raises:
        NotAllowedError: that person is not signed in here, or is a reader.
    """
    if by is None:
        return visit.person(Act.WRITE).name
    here = visit.named(by)
    if visit.cut or here is None or here.out_at is not None:
        raise NotAllowedError(
            said("{who} is not signed in on this device, so nothing is recorded in that name.", who=by)
        )
    if not may(here.role, Act.WRITE):
        raise NotAllowedError(said("{who} is a reader, and readers record nothing.", who=by))
    return here.name
