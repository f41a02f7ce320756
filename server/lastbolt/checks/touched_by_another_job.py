"""Another job had its hands on it after this one.

What it finds: an element of this job that another job on the same machine touched after this job's last
    word on it.

Why it matters: evidence older than another pair of hands proves nothing.

Example: the flange tightened here on Tuesday was opened in another job on Wednesday.

How to clear it: look again and record it here.

Silent when: the other job's work came before.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each element touched elsewhere since."""
    for other in case.others:
        if not other.machine or other.machine != case.job.machine:
            continue
        for name, act in other.touched.items():
            mine = case.job.touched.get(name)
            if mine is not None and act.time > mine.time:
                yield decide(
                    name,
                    said("Job {other} touched {thing} after this job did.", other=other.name, thing=name),
                    to_do="Look again, and record it here.",
                    proof=evidence(mine, act, photos=case.photos_of(name)),
                )
