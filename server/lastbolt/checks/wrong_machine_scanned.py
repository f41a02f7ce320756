"""The label of another machine was read in this job.

What it finds: a machine's label read here that is not this job's machine, with no right one read since.

Why it matters: work logged on the sister ship leaves this one open.

Example: the label of the port engine was read in the job on the starboard engine.

How to clear it: go to the right machine and read its label; void what was logged on the wrong one.

Silent when: the right label was read afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name the other machine, unless the right one was read since."""
    if not case.job.machine or not case.job.machine_scans:
        return
    act, machine = case.job.machine_scans[-1]
    if machine != case.job.machine:
        yield decide(
            machine,
            said(
                "The label of {machine} was read; this job is on {right}.",
                machine=machine,
                right=case.job.machine,
            ),
            to_do="Read the label of the right machine; void what was logged on the wrong one.",
            proof=evidence(act),
        )
