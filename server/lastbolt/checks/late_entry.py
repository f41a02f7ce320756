"""Entries were written down afterwards.

What it finds: entries with mode late; for the lead to decide when they are more than a quarter of the
    job.

Why it matters: memory fills gaps with what should have been.

Example: Friday's work entered on Monday.

How to clear it: read them; a late entry never proves what had to come before something else.

Silent when: nothing was entered late; what was sorted later from a photo of that moment, which shows it.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, note
from ..said import said

LEVEL = 1
LIVE = False


LIMIT_SHARE = 0.25


def check(case: Case) -> Iterator[Finding]:
    """Say how many entries came late."""
    late = case.job.late
    if late:
        build = decide if len(late) > LIMIT_SHARE * case.job.entries else note
        yield build(
            case.job.name,
            said(
                "{n} of {entries} entries were written down afterwards.",
                n=len(late),
                entries=case.job.entries,
            ),
            to_do="Read them; ask who wrote them.",
            proof=evidence(*late),
        )
