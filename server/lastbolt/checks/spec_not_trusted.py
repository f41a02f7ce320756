"""The value used has no sound source.

What it finds: a used value without a source; one that the maker has superseded; a general table in place
    of a maker's value; an implausible number for the thread; a critical value typed in mid-job by the
    person who then pulled it, with no second pair of eyes.

Why it matters: a right torque to a wrong number is a wrong torque.

Example: lbf·in typed as lbf·ft.

How to clear it: source, page and revision, and a second pair of eyes; or the lead decides.

Silent when: the set was not touched; a low value (aluminium, gaskets) never blocks.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..state.fastener_set import FastenerSet
from ..state.readiness import range_nm

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each touched set whose value is in doubt, with the reasons."""
    for group in case.job.sets.values():
        if group.spec is None or not any(h.touched for h in group.holes.values()) or group.spec.hand_tight:
            continue
        reasons = list(_reasons(case, group))
        if reasons:
            yield decide(
                group.name,
                f"The value of {group.name} is not to be trusted: {'; '.join(reasons)}.",
                to_do="Look it up in the maker's manual for this machine; enter page and revision; have it read by a second person.",
                proof=evidence(group.spec_act, photos=case.photos_of(group.name)),
            )


def _reasons(case: Case, group: FastenerSet) -> Iterator[str]:
    spec = group.spec
    if spec is None:
        return
    if spec.general_table:
        yield "the maker gives none, a general table was used"
    elif not spec.source and not spec.page:
        yield "it has no source"
    if group.superseded is not None:
        yield f"it is superseded by {group.superseded.by_source}"
    _, high = range_nm(group)
    top = _ceiling_nm(group)
    if high is not None and top is not None and high > top:
        yield f"{high:g} N·m cannot be right for this thread (a slip of the unit?)"
    started, typed = case.job.first_work, group.spec_act
    if group.critical and not group.spec_checked_by - {spec.by} and started and typed:
        if typed.time > started.time and any(p.entry.by == spec.by for p in group.tightened):
            yield "it is critical, was typed by who pulled it, and nobody else read it"


def _ceiling_nm(group: FastenerSet) -> float | None:
    """Give the torque at which even a class 12.9 bolt yields, in N·m; an estimate, not a specification.

    T = 0.258 d F at friction 0.20, F = 0.7854 (d - 0.938194 P)^2 x 1100 MPa (short form; stress area of ISO 898-1;
    K from the long form; the table of the hard band gives 26.9 for M6).
    """
    described = group.described
    kind = (described.type or next(iter(described.types.values()), None)) if described else None
    if kind is None or kind.diameter_mm is None:
        return None
    pitch = kind.pitch_mm or 0.15 * kind.diameter_mm
    area_mm2 = 0.7854 * (kind.diameter_mm - 0.938194 * pitch) ** 2
    return 0.258 * kind.diameter_mm * area_mm2 * 1100 / 1000
