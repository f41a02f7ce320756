"""What a set still owes before it is tight, locked and looked at."""

from __future__ import annotations

from ..journal.specification import Stage
from .fastener_set import PLACED, FastenerSet, Hole, Pull, remembered


@remembered
def valid_pulls(group: FastenerSet) -> list[tuple[Hole, int, Pull]]:
    """List every stage that stands pulled: hole, stage, pull."""
    return [
        (h, stage, pull) for h in group.holes.values() if h.touched for stage, pull in sorted(h.pulls.items())
    ]


@remembered
def pulls_of(group: FastenerSet) -> list[Pull]:
    """List the pulls that stand on any hole, each once."""
    standing = (h.pulls for h in group.holes.values() if h.touched)
    return list({pull.act.nth: pull for pulls in standing for pull in _by_stage(pulls)}.values())


def last_tools(group: FastenerSet) -> list[tuple[Hole, int, Pull]]:
    """List the last pull of every stage, undone or not: hole, stage, pull."""
    return [
        (h, stage, pull) for h in group.holes.values() if h.touched for stage, pull in sorted(h.tools.items())
    ]


@remembered
def tools_of(group: FastenerSet) -> list[Pull]:
    """List those pulls, each once."""
    last = (h.tools for h in group.holes.values() if h.touched)
    return list({pull.act.nth: pull for tools in last for pull in _by_stage(tools)}.values())


def _by_stage(pulls: dict[int, Pull]) -> list[Pull]:
    return [pulls[stage] for stage in sorted(pulls)]


@remembered
def final_pulls(group: FastenerSet) -> list[tuple[Hole, Pull]]:
    """List the last stage of each hole that has it."""
    ends = [(h, group.stages_of(h.number)[-1]) for h in group.holes.values() if h.touched and h.pulls]
    return [(h, h.pulls[last]) for h, last in ends if last in h.pulls]


@remembered
def without_torque(group: FastenerSet) -> list[Hole]:
    """List fitted holes whose last stage is owed and was not pulled."""
    if not group.has_value:
        return []
    return [
        h
        for h in group.holes.values()
        if h.touched
        and h.reach >= PLACED
        and h.undone is None
        and group.stages_of(h.number)[-1] not in h.pulls
        and not _only_loose(h)
    ]


def _only_loose(hole: Hole) -> bool:
    return hole.loose is not None and hole.fitted is None


@remembered
def with_skipped_stage(group: FastenerSet) -> list[Hole]:
    """List holes on which a later stage stands without an earlier one, or several went in one turn."""
    each_turn = group.spec is not None and (group.stage_count > 1 or bool(group.spec.sequence_each_turn))
    in_one = {pull.act.nth for pull in pulls_of(group) if pull.entry.one_turn} if each_turn else set()
    return [
        h
        for h in group.holes.values()
        if h.touched
        and h.pulls
        and (
            _lacks_a_stage(h, group.stages_of(h.number))
            or (in_one and any(pull.act.nth in in_one for pull in h.pulls.values()))
        )
    ]


def _lacks_a_stage(hole: Hole, owed: tuple[int, ...]) -> bool:
    """Tell whether a later stage stands without one that comes before it."""
    newest = max(hole.pulls)
    for stage in owed:
        if stage >= newest:
            return False
        if stage not in hole.pulls:
            return True
    return False


def range_nm(group: FastenerSet, hole: int | None = None) -> tuple[float | None, float | None]:
    """Give the least and greatest final torque in N·m as printed, by the newest word of the maker.

    Of a hole, if one is named: a stage may be for some holes only.
    """
    newer, spec = group.superseded, group.spec
    if newer is not None and (newer.min_nm is not None or newer.max_nm is not None):
        return newer.min_nm, newer.max_nm
    if spec is None:
        return None, None
    last = _last_row(group, hole)
    low = spec.min_nm if spec.min_nm is not None else last.min_nm if last else None
    high = spec.max_nm if spec.max_nm is not None else last.max_nm if last else None
    return low, high


def wrench_range_nm(group: FastenerSet, hole: int | None = None) -> tuple[float | None, float | None]:
    """Give that range at the wrench: the drag of a self-locking nut is added (AC 43.13-1B 7-40)."""
    low, high = range_nm(group, hole)
    drag = group.spec.prevailing_nm if group.spec else 0
    return _plus(low, drag), _plus(high, drag)


def _plus(value: float | None, drag: float) -> float | None:
    return None if value is None else value + drag


def angle_wanted(group: FastenerSet, hole: int | None = None) -> float | None:
    """Give the angle of the last stage (of a hole, if one is named) in degrees, if it has one."""
    spec = group.spec
    if spec is None:
        return None
    row = _last_row(group, hole)
    return spec.angle_deg or (row.angle_deg if row else None)


def _last_row(group: FastenerSet, hole: int | None) -> Stage | None:
    rows = group.spec.stages if group.spec else ()
    last = group.stage_count if hole is None else group.stages_of(hole)[-1]
    return rows[min(last, len(rows)) - 1] if rows else None


@remembered
def locking_short(group: FastenerSet) -> int:
    """Count the fasteners of a set that still owe a locking piece."""
    described = group.described
    if described is None or described.locking in (None, "own"):
        return 0
    owed = [h for h in group.holes.values() if h.touched and h.reach >= PLACED and h.worked]
    if described.locking == "thread-locker" and _compound_stands(group):
        return 0
    return _unlocked(owed, group)


def _compound_stands(group: FastenerSet) -> bool:
    """Tell whether compound was put on after the set last came out or was slackened (practice C20, C23)."""
    undone = [act.when for act in (*group.removed[-1:], group.slackened) if act is not None]
    return group.compound is not None and all(group.compound.when >= when for when in undone)


def _unlocked(owed: list[Hole], group: FastenerSet) -> int:
    """Count holes for which no locking piece of the kind wanted is left that is newer than the last work."""
    wanted = group.described.locking if group.described else None
    fitted = [row for row in group.locking if "other" in (wanted, row[1]) or row[1] == wanted]
    numbered = [(act.when, hole) for act, _, _, holes in fitted for hole in holes]
    loose = sorted(act.when for act, _, n, holes in fitted for _ in range(n - len(holes)))
    short = 0
    worked_at = [(h.worked.when, h.number) for h in owed if h.worked]
    for worked, number in sorted(worked_at, reverse=True):
        if any(hole == number and when >= worked for when, hole in numbered):
            continue
        if loose and loose[-1] >= worked:
            loose.pop()
        else:
            short += 1
    return short
