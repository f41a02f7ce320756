"""A torque was pulled with a wrench that was not in calibration.

What it finds: a standing stage pulled after the wrench was due, after 5,000 uses, or since the last good
    day of a wrench that was dropped or failed later.

Why it matters: every joint that wrench touched may be wrong, in this job and in others.

Example: wrench W2 fails on day 8; the bracket of a job released on day 5 is in doubt.

How to clear it: check again with a good wrench; or the lead writes why it may stay; released jobs are
    looked at again.

Silent when: no due date is known.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..state.fastener_set import Pull
from ..state.readiness import valid_pulls

LEVEL = 3
LIVE = False


MOST_USES = 5000
"""ISO 6789 interval where the owner has no own scheme; from memory."""


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stages pulled by a doubtful wrench."""
    for group in case.job.sets.values():
        bad = [(h, p, why) for h, _, p in valid_pulls(group) if (why := _doubt(case, p))]
        if bad:
            _, pull, why = bad[0]
            yield decide(
                group.name,
                f"{group.name} was tightened with {pull.entry.wrench}, {why}.",
                to_do="Check again with a wrench in calibration, or the lead writes why it may stay.",
                proof=evidence(*(p.act for _, p, _ in bad[:20]), photos=case.photos_of(group.name)),
            )


def _doubt(case: Case, pull: Pull) -> str | None:
    for job in (case.job, *case.others):
        wrench = job.wrenches.get(pull.entry.wrench or "")
        if wrench is None:
            continue
        if wrench.suspect_since is not None and pull.act.time >= wrench.suspect_since:
            return "which is in doubt since its last good day"
        if job is case.job and wrench.due is not None and pull.act.time > wrench.due:
            return "whose calibration was overdue"
        if job is case.job and wrench.uses > MOST_USES:
            return f"which has pulled more than {MOST_USES} times since its calibration"
    return None
