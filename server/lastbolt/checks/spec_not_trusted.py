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
from ..said import joined, said
from ..state.fastener_set import FastenerSet, remembered, was_touched
from ..state.readiness import range_nm
from ..torque.plausibility import PlausibilityVerdict, judge_torque
from ..torque.printed import agrees
from ..torque.quantity import WrittenTorque, parse_torque
from ..torque.threads import MetricThread, coarse_thread
from ..units import Millimetres, NewtonMetres

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each touched set whose value is in doubt, with the reasons."""
    for group in case.job.sets.values():
        if group.spec is None or not was_touched(group) or group.spec.hand_tight:
            continue
        reasons = list(_reasons(case, group))
        if reasons:
            yield decide(
                group.name,
                said(
                    "The value of {set} is not to be trusted: {reasons}.",
                    set=group.name,
                    reasons=joined("; ", reasons),
                ),
                to_do="Look it up in the maker's manual for this machine; enter page and revision; have it read by a second person.",
                proof=evidence(group.spec_act, group.superseded_act, photos=case.photos_of(group.name)),
            )


def _reasons(case: Case, group: FastenerSet) -> Iterator[str]:
    spec = group.spec
    if spec is None:
        return
    if spec.general_table:
        yield said("the maker gives none, a general table was used")
    elif not spec.source and not spec.page:
        yield said("it has no source")
    if group.superseded is not None:
        yield said("it is superseded by {source}", source=str(group.superseded.by_source))
    odd = _implausible(group)
    if odd:
        yield odd
    if _is_slip(group):
        yield said("its N·m are not what is printed ({printed})", printed=spec.as_written or "")
    started, typed = case.job.first_work, group.spec_act
    if group.critical and not group.spec_checked_by - {spec.by} and started and typed:
        if typed.when > started.when and any(p.entry.by == spec.by for p in group.tightened):
            yield said("it is critical, was typed by who pulled it, and nobody else read it")


@remembered
def _is_slip(group: FastenerSet) -> bool:
    """Tell whether the record's N·m differ from the text as printed: one unit taken for another."""
    spec = group.spec
    written = parse_torque(spec.as_written) if spec and spec.as_written else None
    if spec is None or not isinstance(written, WrittenTorque):
        return False
    row = spec.stages[-1] if spec.stages else None
    low = spec.min_nm if spec.min_nm is not None else row.min_nm if row else None
    high = spec.max_nm if spec.max_nm is not None else row.max_nm if row else None
    return not (low is None and high is None) and not agrees(written.main, low, high)


@remembered
def _implausible(group: FastenerSet) -> str | None:
    """Say why the value cannot be right for the thread; the low side and an unknown thread say nothing."""
    described = group.described
    kind = (described.type or next(iter(described.types.values()), None)) if described else None
    low, high = range_nm(group)
    value = high if high is not None else low
    if value is None or kind is None or kind.diameter_mm is None:
        return None
    diameter = Millimetres(kind.diameter_mm)
    thread = MetricThread(diameter, Millimetres(kind.pitch_mm)) if kind.pitch_mm else coarse_thread(diameter)
    if thread is None:
        return None
    judged = judge_torque(NewtonMetres(value), thread)
    return judged.sentence.rstrip(".") if judged.verdict is PlausibilityVerdict.IMPOSSIBLE else None
