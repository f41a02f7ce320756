"""A value was pulled with a wrench outside its marked range.

What it finds: the last pull of a stage whose value lies outside the marked range of its wrench (below a fifth of
    the greatest value where only that is known).

Why it matters: a click wrench below its lowest mark clicks early, late or not at all.

Example: 10 N·m with a 20 to 100 wrench.

How to clear it: repeat that stage with a fitting wrench.

Silent when: the method is by feel, or no range is known.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, decide, evidence
from ..said import said
from ..state.fastener_set import Pull
from ..state.readiness import last_tools, tools_of

LEVEL = 3
LIVE = True


LOWEST_SHARE = 0.2


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stages pulled by an unfit wrench."""
    ranges = _ranges(case)
    for group in case.job.sets.values() if ranges else ():
        unfit = {p.act.nth for p in tools_of(group) if _is_outside(ranges, p)}
        if not unfit:
            continue
        bad = [(h, s, p) for h, s, p in last_tools(group) if p.act.nth in unfit]
        _, stage, pull = bad[0]
        found = decide(
            group.name,
            said(
                "{set}: {value} N·m (stage {stage}) was pulled with {wrench}, outside its range.",
                set=group.name,
                value=f"{pull.entry.value_nm:g}",
                stage=stage,
                wrench=pull.entry.wrench,
            ),
            to_do="Repeat that stage with a wrench whose range holds the value.",
            proof=evidence(*(p.act for _, _, p in bad), photos=case.photos_of(group.name)),
        )
        yield replace(found, holes=tuple(sorted({h.number for h, _, _ in bad})))


def _ranges(case: Case) -> dict[str, tuple[float | None, float | None]]:
    """Give the least and greatest mark of each wrench of which one is known, in N·m."""
    ranges: dict[str, tuple[float | None, float | None]] = {}
    for name, wrench in case.job.wrenches.items():
        low, high = (wrench.described.min_nm, wrench.described.max_nm) if wrench.described else (None, None)
        if low is not None or high is not None:
            ranges[name] = (low if low is not None or high is None else LOWEST_SHARE * high, high)
    return ranges


def _is_outside(ranges: dict[str, tuple[float | None, float | None]], pull: Pull) -> bool:
    value = pull.entry.value_nm
    low, high = ranges.get(pull.entry.wrench or "", (None, None))
    if value is None or pull.entry.method in ("feel", "by-design"):
        return False
    return (low is not None and value < low) or (high is not None and value > high)
