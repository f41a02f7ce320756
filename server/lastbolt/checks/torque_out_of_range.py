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
        (low, high), angle = wrench_range_nm(group), angle_wanted(group)
        wanted = " to ".join(f"{v:g}" for v in (low, high) if v is not None)
        asked = [f"{wanted} N·m"] if wanted else []
        asked += [f"{angle:g} degrees"] if angle is not None else []
        found = stop(
            group.name,
            f"{group.name}: {_words(bad[0][1])} was pulled where {' and '.join(asked)} is asked (hole {numbers(h.number for h, _ in bad)}).",
            to_do="Do it again with the maker's value; above it, ask first whether the bolt is stretched.",
            proof=evidence(*(p.act for _, p in bad[:20]), photos=case.photos_of(group.name)),
        )
        yield replace(found, holes=tuple(h.number for h, _ in bad))


@remembered
def _out_of_range(group: FastenerSet) -> list[tuple[Hole, Pull]]:
    (low, high), angle = wrench_range_nm(group), angle_wanted(group)
    return [(h, p) for h, p in final_pulls(group) if _is_out(p, low, high, angle)]


def _is_out(pull: Pull, low: float | None, high: float | None, angle: float | None) -> bool:
    value, turned = pull.entry.value_nm, pull.entry.angle_deg
    if value is not None and low is not None and value < low - ROUNDING_NM:
        return True
    if value is not None and high is not None and value > high + ROUNDING_NM:
        return True
    return angle is not None and (turned is None or abs(turned - angle) > ANGLE_TOLERANCE_DEG)


def _words(pull: Pull) -> str:
    value, turned = pull.entry.value_nm, pull.entry.angle_deg
    parts = [f"{value:g} N·m"] if value is not None else []
    return " and ".join(parts if turned is None else [*parts, f"{turned:g} degrees"])
