"""Hands were on the machine after it was released, or a deferral has run out.

What it finds: work on the machine after the release was signed and not reopened; a deferral past its
    limit.

Why it matters: a signature covers what was there when it was given.

Example: a bracket was loosened the next day.

How to clear it: reopen the job with its scope; renew the deferral once, or do the work.

Silent when: photos and notes only; what was deferred is not found any more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..finding import DEFERRAL, Case, Finding, evidence, stop
from ..said import said

LEVEL = 3
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name what was worked on after release, and each deferral past its limit."""
    job = case.job
    for subject, act in job.touched_after_release.items() if job.released else ():
        found = stop(
            subject,
            said("{who} worked on {subject} after the machine was released.", who=act.by, subject=subject),
            to_do="Reopen the job with its scope, and ask for release again.",
            proof=evidence(job.released, act),
        )
        yield replace(found, variant="work")
    for (check_name, subject), decided in () if case.is_live else job.decisions.items():
        limit = decided.entry.limit
        if decided.entry.decision == "defer" and limit and case.at and limit < case.at:
            found = stop(
                subject,
                said(
                    "The deferral of {subject} ({check}) ran out.",
                    subject=subject,
                    check=check_name,
                ),
                to_do="Do the work, or renew the deferral once with limit, barrier and a second name.",
                proof=evidence(decided.act),
            )
            yield replace(found, variant=f"{DEFERRAL} {check_name}")
