"""The fastener in a hole is not the one wanted there.

What it finds: a type in a hole that differs from the wanted one in kind, diameter, pitch, length (more
    than 1.5 mm) or class.

Why it matters: a pure count can be right and the machine deadly: too long jams, too short or too thin
    strips.

Example: a 30 mm bolt in a 40 mm hole and the reverse: the count is right, the places are wrong.

How to clear it: swap and tighten again; or the lead changes the wanted type, with reason and source.

Silent when: only the finish differs, or the difference is within measuring error.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, stop
from ..said import joined, said
from ..state.fastener_set import EMPTY, FastenerSet, Hole, remembered
from ..state.ledger import is_alike

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each set with wrong types in its holes."""
    for group in case.job.sets.values():
        wrong = _wrong(group)
        if not wrong:
            continue
        named = joined(", ", [_words(group, hole) for hole in wrong[:4]])
        more = "{set}: {holes} and {more} more."
        found = stop(
            group.name,
            said(
                more if len(wrong) > 4 else "{set}: {holes}.",
                set=group.name,
                holes=named,
                more=len(wrong) - 4,
            ),
            to_do="Swap the pieces and tighten again.",
            proof=evidence(*(h.fitted for h in wrong), photos=case.photos_of(group.name)),
        )
        yield replace(found, holes=tuple(h.number for h in wrong))


def _words(group: FastenerSet, hole: Hole) -> str:
    form = "hole {number} has {type}, wanted {wanted}"
    return said(form, number=hole.number, type=str(hole.type), wanted=str(group.wanted(hole.number)))


@remembered
def _wrong(group: FastenerSet) -> list[Hole]:
    return [h for h in group.holes.values() if _is_wrong(group, h)]


def _is_wrong(group: FastenerSet, hole: Hole) -> bool:
    wanted = group.wanted(hole.number)
    if wanted is None or hole.type is None or not hole.touched or hole.reach is EMPTY:
        return False
    return not is_alike(wanted, hole.type)
