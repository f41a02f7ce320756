"""A tightening that was done has been undone.

What it finds: after its last stage a fastener was loosened, or another of the same gasketed or staged
    joint was loosened or taken out.

Why it matters: one bolt slackened takes the load off its neighbours; the tick from before proves
    nothing.

Example: one head bolt was slackened to free a bracket.

How to clear it: the whole sequence again; thread-locker cleaned and put on anew.

Silent when: each fastener of the set stands on its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, numbers, stop
from ..journal.fasteners import FastenersLoosened
from ..said import said
from ..state.fastener_set import PLACED, FastenerSet, Hole, remembered

LEVEL = 3
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each set with undone holes; while working only a slackening speaks up."""
    if case.is_live and not isinstance(case.just, FastenersLoosened):
        return
    for group in case.job.sets.values():
        undone = _undone(group)
        if not undone:
            continue
        found = stop(
            group.name,
            said(
                "{set}: the tightening of hole {holes} was undone.",
                set=group.name,
                holes=numbers(h.number for h in undone),
            ),
            to_do="Repeat the whole sequence on the joint.",
            proof=evidence(*(h.undone for h in undone), photos=case.photos_of(group.name)),
        )
        yield replace(found, holes=tuple(h.number for h in undone))


@remembered
def _undone(group: FastenerSet) -> list[Hole]:
    return [h for h in group.holes.values() if h.undone is not None and h.reach >= PLACED]
