"""A step is said to be done while its elements are open.

What it finds: a step marked done with elements that are off, apart, empty, loose or open, or on which this
    job has no record at all.

Why it matters: a signature alone adds nothing.

Example: "refit induction" is ticked, the cowl screws are open.

How to clear it: finish it, or take the tick back.

Silent when: the step only takes off and names no elements.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, are, decide, evidence
from ..said import joined, said
from ..state.covering import is_ready

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each done step with open elements."""
    for step, (act, elements) in case.job.steps_done.items():
        unseen = [name for name in elements if name not in case.job.recorded]
        open_ones = [name for name in elements if not is_ready(case.job, name, "final")]
        why = []
        if open_ones:
            why.append(said("{things} {are} open", things=", ".join(open_ones), are=are(len(open_ones))))
        if unseen:
            why.append(said("nothing was recorded on {things}", things=", ".join(unseen)))
        if why:
            yield decide(
                step,
                said("{step} is marked done, and {why}.", step=step, why=joined("; ", why)),
                to_do="Finish it and record it, or take the tick back.",
                proof=evidence(
                    act,
                    *(case.job.touched.get(name) for name in open_ones),
                    photos=case.photos_of(*open_ones),
                ),
            )
