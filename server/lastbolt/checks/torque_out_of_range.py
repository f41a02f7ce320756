"""The torque or angle pulled is not the one asked for.

What it finds: the last stage of a hole outside the least and greatest value, or its angle off by more
    than 5 degrees or not recorded.

Why it matters: too little lets go, too much has stretched the bolt.

Example: 79 N·m where 89.3 to 91.5 is asked.

How to clear it: do it again; above the greatest value ask first whether the bolt is stretched and must
    be new.

Silent when: the value is within the range (a twentieth of a newton metre of rounding is allowed).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, numbers, stop
from ..said import joined, said
from ..state.fastener_set import FastenerSet, Hole, Pull, remembered
from ..state.readiness import angle_wanted, final_pulls, wrench_range_nm

LEVEL = 3
LIVE = True


ANGLE_TOLERANCE_DEG = 5.0
ROUNDING_NM = 0.05


def check(case: Case) -> Iterator[Finding]:
    """Name each set with last pulls out of range."""
    for group in case.job.sets.values():
        bad = _out_of_range(group)
        if not bad:
            continue
        first = bad[0][0].number
        (low, high), angle = wrench_range_nm(group, first), angle_wanted(group, first)
        asked = _asked(low, high, angle)
        found = stop(
            group.name,
            said(
                "{set}: {pulled} was pulled where {asked} is asked (hole {holes}).",
                set=group.name,
                pulled=_words(bad[0][1]),
                asked=joined(" and ", asked),
                holes=numbers((h.number for h, _ in bad)),
            ),
            to_do="Do it again with the maker's value; above it, ask first whether the bolt is stretched.",
            proof=evidence(
                group.spec_act,
                group.superseded_act,
                *(p.act for _, p in bad),
                photos=case.photos_of(group.name),
            ),
        )
        yield replace(found, holes=tuple(h.number for h, _ in bad))


def _asked(low: float | None, high: float | None, angle: float | None) -> list[str]:
    given = [f"{value:g}" for value in (low, high) if value is not None]
    wanted = said("{least} to {most} N·m", least=given[0], most=given[-1]) if len(given) > 1 else None
    torque = wanted or (said("{value} N·m", value=given[0]) if given else None)
    turned = said("{angle} degrees", angle=f"{angle:g}") if angle is not None else None
    return [each for each in (torque, turned) if each is not None]


@remembered
def _out_of_range(group: FastenerSet) -> list[tuple[Hole, Pull]]:
    out: dict[tuple[int, tuple[int, ...]], bool] = {}
    bad = []
    for hole, pull in final_pulls(group):
        alike = pull.act.nth, group.stages_of(hole.number)
        if alike not in out:
            out[alike] = _is_out(group, hole, pull)
        if out[alike]:
            bad.append((hole, pull))
    return bad


def _is_out(group: FastenerSet, hole: Hole, pull: Pull) -> bool:
    (low, high), angle = wrench_range_nm(group, hole.number), angle_wanted(group, hole.number)
    value, turned = pull.entry.value_nm, pull.entry.angle_deg
    if value is not None and low is not None and value < low - ROUNDING_NM:
        return True
    if value is not None and high is not None and value > high + ROUNDING_NM:
        return True
    return angle is not None and (turned is None or abs(turned - angle) > ANGLE_TOLERANCE_DEG)


def _words(pull: Pull) -> str:
    value, turned = pull.entry.value_nm, pull.entry.angle_deg
    return joined(" and ", _asked(value, None, turned)) if value is not None or turned is not None else ""
