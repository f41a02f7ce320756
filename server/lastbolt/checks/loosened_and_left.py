"""Something was loosened in place and is not tight again.

What it finds: slackened fasteners and released captive points that were not tightened or latched.

Why it matters: no bag reminds anyone of a clamp; closed is not latched.

Example: the suction clamp; cowl latches.

How to clear it: tighten or latch it, and look at its flag.

Silent when: it is meant to stay floating; a confirmed tightening was undone in signed work (then torque-
    undone speaks).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, are, evidence, numbers, pieces, stop
from ..said import said
from ..state.covering import SIGNED_WORK
from ..state.fastener_set import PLACED, Act, FastenerSet, Hole, remembered

LEVEL = 2
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set with loose holes or open captive points."""
    for group in case.job.sets.values():
        if group.described and group.described.left_floating:
            continue
        loose = [h for h in _slack(group) if _since(case, h)]
        if loose:
            slack = "{set}: {fasteners} {are} loosened and not tight again ({holes})."
            by_hand = "{set}: {fasteners} {are} in by hand and not tight ({holes})."
            found = stop(
                group.name,
                said(
                    by_hand if all(h.loose is not None and h.loose == h.fitted for h in loose) else slack,
                    set=group.name,
                    fasteners=pieces(len(loose), "fastener"),
                    are=are(len(loose)),
                    holes=numbers(h.number for h in loose),
                ),
                to_do="Tighten it.",
                proof=evidence(*(_since(case, h) for h in loose), photos=case.photos_of(group.name)),
            )
            yield replace(found, holes=tuple(h.number for h in loose))
        elif group.captive_open:
            yield stop(
                group.name,
                said(
                    "{set}: {points} {are} released and not latched.",
                    set=group.name,
                    points=pieces(group.captive_open, "captive point"),
                    are=are(group.captive_open),
                ),
                to_do="Latch it and look at its flag; closed is not latched.",
                proof=evidence(group.captive_act, photos=case.photos_of(group.name)),
            )


def _since(case: Case, hole: Hole) -> Act | None:
    """Say since when a hole is loose; below signed work nothing else speaks of an undone tightening."""
    return hole.loose or (hole.undone if case.job.level < SIGNED_WORK else None)


@remembered
def _slack(group: FastenerSet) -> list[Hole]:
    return [h for h in group.holes.values() if (h.loose or h.undone) and h.reach >= PLACED]
