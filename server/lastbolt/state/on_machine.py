"""How entries about parts, connections, fluids, renewals, settings and isolations change a job."""

from __future__ import annotations

import math

from ..journal.machine import (
    AccessSaid,
    ConnectionDescribed,
    ConnectionMade,
    ConnectionParted,
    FluidChecked,
    FluidDescribed,
    FluidDrained,
    FluidFilled,
    IsolationApplied,
    IsolationCleared,
    IsolationDescribed,
    IsolationProven,
    IsolationRemoved,
    IsolationTransferred,
    PartDescribed,
    PartFitted,
    PartRemoved,
    RenewalFitted,
    RenewalNeeded,
    RenewalSeenOff,
    SettingDescribed,
    SettingFound,
    SettingSet,
)
from ..said import said
from .elements import LEAST_SHARE, Connection, Fluid, Isolation, Part, Renewal, Setting
from .fastener_set import Act
from .job import Job, Oddity


def describe_part(job: Job, e: PartDescribed, act: Act) -> None:
    """Take down what a part is."""
    job.parts.setdefault(e.part, Part(e.part)).described = e


def remove_part(job: Job, e: PartRemoved, act: Act) -> None:
    """A part comes off; renewals under it are spent, its hold points begin anew, routes open."""
    part = job.parts.setdefault(e.part, Part(e.part))
    if not part.on:
        job.oddities.append(Oddity(e.part, "it came off twice and was never put on between", 1, act))
    part.on, part.off_at, part.place = False, act, e.place
    for renewal in job.renewals.values():
        if renewal.needed and renewal.needed.under == e.part and renewal.fitted:
            renewal.fitted = renewal.seen_off = 0
            renewal.spent = act
    for hold in job.holds.values():
        if hold.before == e.part:
            hold.passed = hold.released = None


def fit_part(job: Job, e: PartFitted, act: Act) -> None:
    """A part goes on."""
    part = job.parts.setdefault(e.part, Part(e.part))
    if part.on:
        job.oddities.append(Oddity(e.part, "it went on and was never logged as off", 1, act))
    part.on, part.on_at = True, act
    for renewal in job.renewals.values():
        if renewal.needed and renewal.needed.under == e.part:
            renewal.covered = act
    for hold in job.holds.values():
        if hold.before == e.part and hold.released is None:
            hold.passed = act


def say_access(job: Job, e: AccessSaid, act: Act) -> None:
    """An edge of the access map; the newest word on a pair and route counts."""
    same = (e.part, e.element, e.route, e.shape_only)
    job.access = [a for a in job.access if (a.part, a.element, a.route, a.shape_only) != same]
    job.access.append(e)


def describe_connection(job: Job, e: ConnectionDescribed, act: Act) -> None:
    """Take down what a connection is."""
    job.connections.setdefault(e.connection, Connection(e.connection)).described = e


def part_connection(job: Job, e: ConnectionParted, act: Act) -> None:
    """Apart."""
    here = job.connections.setdefault(e.connection, Connection(e.connection))
    here.apart, here.unsure = act, None


def make_connection(job: Job, e: ConnectionMade, act: Act) -> None:
    """Together; without a pull or a tight clamp it stays a debt."""
    here = job.connections.setdefault(e.connection, Connection(e.connection))
    if here.apart is None and here.unsure is None:
        job.oddities.append(Oddity(e.connection, "it was made and was never logged as apart", 1, act))
    here.apart, here.made = None, act
    here.unsure = None if e.pulled and (e.clamp_tight or _has_no_clamp(here)) else act


def _has_no_clamp(here: Connection) -> bool:
    """Tell whether its description says so; a clamp called not tight is there unless it does."""
    said = here.described
    return said is not None and "has_clamp" in said.model_fields_set and not said.has_clamp


def describe_fluid(job: Job, e: FluidDescribed, act: Act) -> None:
    """Take down capacity and grade."""
    job.fluids.setdefault(e.fluid, Fluid(e.fluid)).described = e


BLEED_SHARE = 0.1
"""What goes out again by bleeding, as a share of what went out first (practice C35)."""


def drain(job: Job, e: FluidDrained, act: Act) -> None:
    """Out: the count of what must go in goes on, or begins anew where all was back; a bleed is no drain.

    A wrong grade is gone once nine tenths of what was filled since are out again.
    """
    here = job.fluids.setdefault(e.fluid, Fluid(e.fluid))
    if here.is_back and e.litres > BLEED_SHARE * here.drained_l:
        here.drained_l = here.filled_l = here.short_l = 0.0
    here.drained_l += e.litres
    here.drained = act
    capacity = here.described.capacity_l if here.described else None
    here.short_l = min(here.short_l + e.litres, capacity or math.inf)
    here.mixed_l = max(0.0, here.mixed_l - e.litres)
    if here.mixed_l <= (1 - LEAST_SHARE) * here.mixed_most_l:
        here.wrong_grade = None


def fill(job: Job, e: FluidFilled, act: Act) -> None:
    """In."""
    here = job.fluids.setdefault(e.fluid, Fluid(e.fluid))
    if here.drained is None:
        job.oddities.append(Oddity(e.fluid, "it was filled and was never logged as drained", 1, act))
    here.filled_l += e.litres
    here.short_l = max(0.0, here.short_l - e.litres)
    here.filled = act
    wanted = here.described.grade if here.described else None
    is_wrong = bool(wanted and e.grade and e.grade != wanted)
    here.wrong_grade = act if is_wrong else here.wrong_grade
    here.mixed_l += e.litres
    here.mixed_most_l = max(here.mixed_most_l, here.mixed_l) if here.wrong_grade else 0.0


def check_fluid(job: Job, e: FluidChecked, act: Act) -> None:
    """Level, bleeding and leaks."""
    here = job.fluids.setdefault(e.fluid, Fluid(e.fluid))
    good = e.level_right and not e.leaks and e.bled is not False
    here.checked, here.check_bad = act, None if good else act


def need_renewal(job: Job, e: RenewalNeeded, act: Act) -> None:
    """Something must be new."""
    job.renewals.setdefault(e.renewal, Renewal(e.renewal)).needed = e


def see_off(job: Job, e: RenewalSeenOff, act: Act) -> None:
    """Old ones seen off."""
    here = job.renewals.setdefault(e.renewal, Renewal(e.renewal))
    here.seen_off += e.n
    here.last = act


def renew(job: Job, e: RenewalFitted, act: Act) -> None:
    """New ones on."""
    here = job.renewals.setdefault(e.renewal, Renewal(e.renewal))
    here.fitted += e.n
    here.last = act


def describe_setting(job: Job, e: SettingDescribed, act: Act) -> None:
    """Take down unit and tolerance."""
    job.settings.setdefault(e.setting, Setting(e.setting)).described = e


def find_setting(job: Job, e: SettingFound, act: Act) -> None:
    """As found, until it was set; found otherwise since, that is how it stands, and no page says so."""
    here = job.settings.setdefault(e.setting, Setting(e.setting))
    if here.left is None:
        here.found = (act, e.value)
    elif here.differs(here.left[1], e.value):
        here.left, here.manual_page = (act, e.value), None


def set_setting(job: Job, e: SettingSet, act: Act) -> None:
    """As left."""
    here = job.settings.setdefault(e.setting, Setting(e.setting))
    if here.found is None:
        job.oddities.append(Oddity(e.setting, "it was set and its value as found was never logged", 1, act))
    here.left, here.manual_page = (act, e.value), e.manual_page


def describe_isolation(job: Job, e: IsolationDescribed, act: Act) -> None:
    """Take down an isolation point and its reach."""
    here = job.isolations.setdefault(e.isolation, Isolation(e.isolation))
    here.described, here.high_energy = e, e.high_energy


def apply_isolation(job: Job, e: IsolationApplied, act: Act) -> None:
    """Cut off and tagged."""
    here = job.isolations.setdefault(e.isolation, Isolation(e.isolation))
    here.high_energy = here.high_energy if e.high_energy is None else e.high_energy
    if here.applied is not None and here.holder != e.by:
        here.others[e.by] = act
        return
    here.applied, here.holder, here.removed, here.proven = act, e.by, None, None


def prove_isolation(job: Job, e: IsolationProven, act: Act) -> None:
    """Tried and dead."""
    here = job.isolations.setdefault(e.isolation, Isolation(e.isolation))
    if here.applied is None and here.removed is None:
        job.oddities.append(Oddity(e.isolation, "it was proven and was never logged as cut off", 1, act))
    here.proven = act


def transfer_isolation(job: Job, e: IsolationTransferred, act: Act) -> None:
    """The tag changes hands."""
    here = job.isolations.setdefault(e.isolation, Isolation(e.isolation))
    giver_has_own = e.by in here.others and e.by not in (here.holder, e.to)
    if giver_has_own:
        here.others[e.to] = here.others.pop(e.by)
    else:
        here.holder = e.to
        here.others.pop(e.to, None)


def clear_isolation(job: Job, e: IsolationCleared, act: Act) -> None:
    """People and things out: nothing to keep but that it was said."""


def lift_isolation(job: Job, e: IsolationRemoved, act: Act) -> None:
    """Energy back: by whom, and over what that is still open in its reach."""
    here = job.isolations.setdefault(e.isolation, Isolation(e.isolation))
    if here.others and e.by in (here.holder, *here.others):
        _take_own_tag(here, e.by)
        return
    if here.applied is None:
        job.oddities.append(Oddity(e.isolation, "it was lifted and was never logged as cut off", 1, act))
    elif here.holder not in (None, e.by):
        here.lifted_by_other = act
    here.lifted_over = _open_in_reach(job, here, act) or here.lifted_over
    here.applied, here.removed, here.holder = None, act, None
    here.others.clear()


def _take_own_tag(here: Isolation, by: str) -> None:
    """One of several tags comes off: the point stays cut off for the others."""
    if by in here.others:
        del here.others[by]
        return
    here.holder = next(iter(here.others))
    here.applied = here.others.pop(here.holder)


def _open_in_reach(job: Job, here: Isolation, act: Act) -> tuple[Act, str] | None:
    scope = here.described.scope if here.described else ()
    for opening in job.openings.values():
        if opening.is_bare and opening.letter == "A" and (not scope or opening.name in scope):
            return act, said("{thing} stood open", thing=opening.name)
    for item in job.items.values():
        if item.n > 0 and (not scope or item.opening in scope or item.name in scope):
            return act, said("{thing} was still in", thing=item.name)
    return None
