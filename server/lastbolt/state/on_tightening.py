"""How entries about tightening, values and wrenches change a job."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta

from ..journal.fasteners import (
    FastenersLoosened,
    FastenersRetightened,
    FastenersTightened,
    LockingFitted,
    WitnessMarked,
)
from ..journal.machine import CompoundApplied
from ..journal.specification import (
    SpecChecked,
    SpecEntered,
    SpecSuperseded,
    WrenchCalibrated,
    WrenchDescribed,
    WrenchSuspected,
)
from .elements import Wrench
from .fastener_set import EMPTY, FINAL, PARKED, PLACED, SNUG, Act, FastenerSet, Hole, Pull
from .guessed import settle_slack
from .job import Job, Oddity
from .on_captive import shut_points
from .on_fasteners import loosen, seat, spend_renewals
from .readiness import angle_wanted, range_nm
from .sequence import note_order


def loosen_entry(job: Job, e: FastenersLoosened, act: Act) -> None:
    """Slackened in place."""
    group = job.set_named(e.set)
    holes = _slackened_holes(group, e)
    more = (e.n or 0) - max(len(holes), len(e.holes))
    if group.described is not None and more > 0:
        job.oddities.append(Oddity(e.set, "more were loosened than the set has in its holes", more, act))
    if not e.holes and len(holes) < len(group.holes):
        for hole in holes:
            hole.by_count = True
    loosen(group, holes, act)
    spend_renewals(job, e.set, len(holes), act)


def _slackened_holes(group: FastenerSet, e: FastenersLoosened) -> list[Hole]:
    """Choose the holes that an entry slackens: those named, else of the tight ones, else all.

    A set of which nobody said how many it has is as large as what was done to it, one at the least.
    """
    if e.holes:
        return [hole for hole in (group.hole(n) for n in e.holes) if hole.reach is not EMPTY]
    full = [hole for hole in group.holes.values() if hole.reach is not EMPTY]
    full.sort(key=lambda hole: (hole.loose is not None or hole.undone is not None, hole.number))
    if group.described is None:
        tight = sum(hole.loose is None and hole.undone is None for hole in full)
        first = max(group.holes, default=0) + 1
        missing = e.n - tight if e.n is not None else int(not group.holes)
        new = [group.hole(number) for number in range(first, first + missing)]
        full = [*full[:tight], *new, *full[tight:]]
    return full[: e.n]


def retighten(job: Job, e: FastenersRetightened, act: Act) -> None:
    """What was loose is tight again; a value owed by a specification stays owed."""
    group = job.set_named(e.set)
    if group.captive_open and not e.holes:
        shut_points(job, group, e.n, act)
        group.done.append(act)
        return
    settle_slack(group, e.holes)
    loose = [h for h in group.holes.values() if h.loose or h.undone]
    chosen = [group.hole(k) for k in e.holes][: e.n] if e.holes else loose[: e.n or len(loose)]
    at_work = sum(h.touched for h in group.holes.values())
    more = max(len(chosen), e.n or 1) - at_work
    found_loose = any(bad.defect == "loose" for _, bad in group.found_bad)
    if more > 0 and not found_loose:
        odd = Oddity(e.set, "it was tightened again and was never logged as loose", more, act)
        job.oddities.append(odd)
    for hole in chosen:
        hole.loose = None
        if not group.has_value:
            hole.undone = None
        elif e.value_nm is None and hole.touched and hole.reach is FINAL and not hole.undone:
            hole.reach = PLACED
    group.fitted_by.add(e.by)
    group.done.append(act)
    if group.has_value and e.value_nm is not None:
        _count_use(job, e, len(chosen))
        _pull(group, chosen, _as_pull(e, act))


def _as_pull(e: FastenersRetightened, act: Act) -> Pull:
    """Give a retightening to a value as the pull of the last stage that it is."""
    told = e.model_dump(include=set(FastenersTightened.model_fields) - {"kind", "holes"})
    return Pull(act, FastenersTightened.model_validate(told | {"kind": "fasteners-tightened"}))


def tighten(job: Job, e: FastenersTightened, act: Act) -> None:
    """A stage pulled on holes; the last stage makes them final.

    Where a value is owed, an entry with neither torque nor angle proves nothing and stays a claim.
    """
    group = job.set_named(e.set)
    chosen = _tightened_holes(job, group, e, act)
    pull = Pull(act, e)
    group.tightened.append(pull)
    group.fitted_by.add(e.by)
    _count_use(job, e, len(chosen))
    if group.has_value and e.value_nm is None and e.angle_deg is None:
        return
    note_order(group, pull)
    _pull(group, chosen, pull)
    if e.reached and group.name in job.buried:
        job.buried[group.name].reached = True


def _pull(group: FastenerSet, chosen: list[Hole], pull: Pull) -> None:
    """Let a pull stand on holes; one that made a tight fastener turn only shows that it was not tight."""
    e, act = pull.entry, pull.act
    meant: dict[tuple[int, ...], int | None] = {}
    for hole in chosen:
        if e.moved and hole.reach is FINAL and hole.pulls:
            loosen(group, [hole], act)
            continue
        if hole.reach is PARKED:
            seat(hole, act, is_new=False)
        stages = group.stages_of(hole.number)
        if stages not in meant:
            meant[stages] = _stage_pulled(group, hole, e)
        stage = meant[stages]
        if stage is None:
            continue
        if hole.pulls and max(hole.pulls) > stage:
            hole.pulls = {k: v for k, v in hole.pulls.items() if k < stage}
        hole.pulls[stage] = hole.tools[stage] = pull
        hole.loose, hole.touched = None, True
        if stage == stages[-1]:
            hole.reach, hole.undone, group.last_final = FINAL, None, act
        else:
            hole.reach = SNUG


def _stage_pulled(group: FastenerSet, hole: Hole, e: FastenersTightened) -> int | None:
    """Give the stage that an entry pulls on a hole and on any with the same stages, if it counts at all."""
    stage = group.stage_meant(hole.number, e.stage)
    is_last = stage == group.stages_of(hole.number)[-1]
    return None if is_last and not _is_last_asked(group, hole, e) else stage


def _is_last_asked(group: FastenerSet, hole: Hole, e: FastenersTightened) -> bool:
    """Tell whether a pull can be the last stage: under the condition asked (hot, with load), of its kind."""
    if group.spec is None:
        return True
    if not e.condition_met:
        return False
    asks_torque = range_nm(group, hole.number) != (None, None)
    return e.value_nm is not None or not asks_torque or angle_wanted(group, hole.number) is not None


def _tightened_holes(job: Job, group: FastenerSet, e: FastenersTightened, act: Act) -> list[Hole]:
    if not e.holes:
        filled = [h for h in group.holes.values() if h.reach is not EMPTY]
        empty = 0 if filled else len(group.holes)
    else:
        settle_slack(group, e.holes)
        chosen = [group.hole(number) for number in e.holes]
        filled = [h for h in chosen if h.reach is not EMPTY]
        empty = len(chosen) - len(filled)
    if empty:
        job.oddities.append(Oddity(e.set, "torque was pulled where no fastener was logged", empty, act))
    return filled


def _count_use(job: Job, e: FastenersTightened | FastenersRetightened, n: int) -> None:
    if e.wrench:
        wrench_named(job, e.wrench).uses += n


def lock(job: Job, e: LockingFitted, act: Act) -> None:
    """Split pins, wire, tabs: how many; thread-locker on all that are out counts as compound."""
    group = job.set_named(e.set)
    group.locking.append((act, e.locking, e.n, e.holes[: e.n]))
    if e.locking == "thread-locker" and e.n >= len(group.of_reach(EMPTY)) > 0:
        group.compound = act


def mark_witness(job: Job, e: WitnessMarked, act: Act) -> None:
    """Paint stripes: how many."""
    job.set_named(e.set).witness += e.n


def apply_compound(job: Job, e: CompoundApplied, act: Act) -> None:
    """Sealant or thread-locker on a set or a joint."""
    if e.element in job.sets:
        job.sets[e.element].compound = act
    job.tested_wet.pop(e.element, None)
    if e.cure_minutes:
        job.curing[e.element] = act, act.time + timedelta(minutes=e.cure_minutes)


def enter_spec(job: Job, e: SpecEntered, act: Act) -> None:
    """The value of a set; the newest counts."""
    group = job.set_named(e.set)
    group.spec, group.spec_act, group.superseded, group.superseded_act = e, act, None, None
    group.spec_checked_by.clear()


def check_spec(job: Job, e: SpecChecked, act: Act) -> None:
    """A second pair of eyes on a value."""
    job.set_named(e.set).spec_checked_by.add(e.by)


def supersede_spec(job: Job, e: SpecSuperseded, act: Act) -> None:
    """The value is out of date."""
    group = job.set_named(e.set)
    group.superseded, group.superseded_act = e, act


def wrench_named(job: Job, name: str) -> Wrench:
    """Give a wrench, made on first mention."""
    if name not in job.wrenches:
        job.wrenches[name] = Wrench(name)
    return job.wrenches[name]


def describe_wrench(job: Job, e: WrenchDescribed, act: Act) -> None:
    """A wrench's kind and range."""
    wrench = wrench_named(job, e.wrench)
    wrench.described, wrench.due, wrench.told_due = e, e.due or wrench.due, e.due or wrench.told_due


def calibrate(job: Job, e: WrenchCalibrated, act: Act) -> None:
    """Passed: good from that day on; failed: everything since the last good day is in doubt."""
    wrench = wrench_named(job, e.wrench)
    day = datetime.combine(e.calibrated_on, time(), tzinfo=UTC)
    if e.passed:
        wrench.good_since, wrench.due, wrench.uses = day, e.due or wrench.due, 0
        wrench.suspect_since = None
        wrench.passes.append((act.time if day.date() == act.time.date() else day, e.due))
    else:
        wrench.suspect_since, wrench.suspect = wrench.good_since or day, act
        wrench.doubts.append((wrench.suspect_since, act))


def suspect(job: Job, e: WrenchSuspected, act: Act) -> None:
    """Dropped or failed: in doubt since the last good day, if no other is named."""
    wrench = wrench_named(job, e.wrench)
    wrench.suspect_since, wrench.suspect = e.since or wrench.good_since or act.time, act
    wrench.doubts.append((wrench.suspect_since, act))
