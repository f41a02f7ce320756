"""Something goes back that was never logged as apart.

What it finds: an entry that contradicts the record before it: more fitted than empty holes, more bagged
    than removed, a part on that was never off, a connection made that was never apart, torque where no
    bolt was, a cover on a mouth never opened, filled without drained, set without its value as found.

Why it matters: something was undone without a record, so other things may be too.

Example: two phones without Wi-Fi both log the same bag as fitted.

How to clear it: record the missing removal (late); void the double; or the lead writes what happened.

Silent when: every debt was opened before it was paid.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..label_code import printed
from ..said import Said, joined, said
from ..state.job import Job, Oddity
from ..state.unlogged import unlogged_under_parts

LEVEL = 1
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each subject with contradictions, once."""
    by_subject: dict[str, list[Oddity]] = defaultdict(list)
    for odd in case.job.oddities:
        by_subject[odd.subject].append(odd)
    for odd in unlogged_under_parts(case.job):
        by_subject[odd.subject].append(odd)
    for subject, odds in by_subject.items():
        build = stop if _is_critical(case.job, subject) else decide
        what = joined(
            "; ",
            list(
                dict.fromkeys(
                    said(
                        "{what} ({n})",
                        what=odd.what if isinstance(odd.what, Said) else said(odd.what),
                        n=odd.n,
                    )
                    for odd in odds
                )
            ),
        )
        yield build(
            subject,
            said("{subject}: {what}.", subject=printed(subject), what=what),
            to_do="Record what went unrecorded, void what was logged twice, or the lead writes what happened.",
            proof=evidence(*(odd.act for odd in odds), photos=case.photos_of(subject)),
        )


def _is_critical(job: Job, subject: str) -> bool:
    connection = job.connections.get(subject)
    described = connection.described if connection else None
    return (subject in job.sets and job.sets[subject].critical) or (
        described is not None and described.critical
    )
