"""A stage was skipped, or the order was not the one given.

What it finds: a stage on a hole without the one before it; one turn where several are given; a whole set tightened in another order than
    specified.

Why it matters: a joint pulled down at once or from one end seals on one side only.

Example: stage 3 straight after stage 1.

How to clear it: slacken and repeat the whole sequence; for the order alone the lead decides.

Silent when: the order is unknown or does not matter; only part of the set was tightened again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, decide, evidence, numbers, stop
from ..said import said
from ..state.readiness import with_skipped_stage
from ..state.sequence import out_of_order

LEVEL = 3
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each set with a skipped stage, else with another order."""
    for group in case.job.sets.values():
        skipped = with_skipped_stage(group)
        if skipped:
            acts = [p.act for h in skipped for p in h.pulls.values()]
            found = stop(
                group.name,
                said(
                    "{set}: a stage was skipped or turned together with another on hole {holes}.",
                    set=group.name,
                    holes=numbers(h.number for h in skipped),
                ),
                to_do="Slacken and repeat the whole sequence, stage by stage.",
                proof=evidence(*acts, photos=case.photos_of(group.name)),
            )
            yield replace(found, holes=tuple(h.number for h in skipped), variant="stage")
            continue
        order, wrong = out_of_order(group)
        if wrong and group.spec:
            done = "-".join(str(n) for n in order)
            asked = "-".join(str(n) for n in group.spec.order if n in order)
            found = decide(
                group.name,
                said(
                    "{set} was tightened in the order {done}; {asked} is asked.",
                    set=group.name,
                    done=done,
                    asked=asked,
                ),
                to_do="Repeat it in the order given, or the lead writes why it may stay.",
                proof=evidence(*(p.act for p in wrong), photos=case.photos_of(group.name)),
            )
            yield replace(found, variant="order")
