"""Hands were on the machine after it was released, or a deferral has run out.

What it finds: work on the machine after the release was signed and not reopened; a deferral past its
    limit.

Why it matters: a signature covers what was there when it was given.

Example: a bracket was loosened the next day.

How to clear it: reopen the job with its scope; renew the deferral once, or do the work.

Silent when: photos and notes only; the deferred thing was worked on since (then its own finding speaks, if
    any is left).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import Case, Finding, evidence, stop
from ..state.fastener_set import Act
from ..state.job import Job

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name the first work after release, and each deferral past its limit."""
    job = case.job
    if job.changed_after_release is not None and job.released is not None:
        act = job.changed_after_release
        found = stop(
            job.name,
            f"{act.by} worked on the machine after it was released.",
            to_do="Reopen the job with its scope, and ask for release again.",
            proof=evidence(job.released, act),
        )
        yield replace(found, variant="work")
    for (check_name, subject), decided in job.decisions.items():
        limit = decided.entry.limit
        if (
            decided.entry.decision == "defer"
            and limit is not None
            and case.at is not None
            and limit < case.at
            and not _worked_since(job, subject, decided.act)
        ):
            found = stop(
                subject,
                f"The deferral of {subject} ({check_name}) ran out.",
                to_do="Do the work, or renew the deferral once with limit, barrier and a second name.",
                proof=evidence(decided.act),
            )
            yield replace(found, variant="deferral")


def _worked_since(job: Job, subject: str, word: Act) -> bool:
    act = job.touched.get(subject)
    return act is not None and act.time > word.time
