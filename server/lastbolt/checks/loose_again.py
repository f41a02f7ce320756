"""It was found loose again, and why was never written down.

What it finds: a set found loose in this job and in an earlier one on the same machine, or twice in this
    job, without a cause.

Why it matters: nuts replaced without asking why come loose a second time.

Example: stretcher bar nuts found undone in January, again in February.

How to clear it: find the cause and write it down.

Silent when: a cause is written, or it is the first time (then found-bad-not-decided speaks).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop
from ..said import said

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each set loose for the second time without a cause."""
    for group in case.job.sets.values():
        mine = [(act, bad) for act, bad in group.found_bad if bad.defect == "loose"]
        if not mine or any(bad.cause for _, bad in mine):
            continue
        before = [
            act
            for other in case.others
            if other.machine and other.machine == case.job.machine
            for act, bad in (other.sets[group.name].found_bad if group.name in other.sets else [])
            if bad.defect == "loose"
        ]
        if len(mine) + len(before) > 1:
            yield stop(
                group.name,
                said(
                    "{set} was found loose {n} times and nobody wrote why.",
                    set=group.name,
                    n=len(mine) + len(before),
                ),
                to_do="Find the cause before it goes out again, and write it down.",
                proof=evidence(*before, *(act for act, _ in mine), photos=case.photos_of(group.name)),
            )
