"""Another job is open on this machine.

What it finds: any other open job with hands on it on the same machine, that is not linked here.

Why it matters: a pump was started because one permit was closed; the other one had its valve out.

Example: job 311 on the same loader.

How to clear it: finish it, or link it and name the debts that are shared.

Silent when: the other job is released, cancelled or linked, or is washing and paperwork.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, evidence, stop

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each other open job on the machine."""
    for other in case.others:
        over = other.released is not None or other.ended is not None
        hands = other.opened is None or other.opened.hands
        if over or not hands or not case.job.machine or other.machine != case.job.machine:
            continue
        if other.name not in case.job.linked_jobs:
            title = other.opened.title if other.opened else other.name
            yield stop(
                other.name,
                f"Job {other.name} ({title}) is open on the same machine.",
                to_do="Finish it, or link it and say which of its open debts matter here.",
                proof=evidence(),
            )
