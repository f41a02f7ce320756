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
from ..state.elements import Wrench
from ..state.fastener_set import Act, Pull
from ..state.readiness import pulls_of

LEVEL = 3
LIVE = True


MOST_USES = 5000
"""ISO 6789 interval where the owner has no own scheme; from memory."""


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stages pulled by a doubtful wrench."""
    for group in case.job.sets.values():
        bad = [(pull, why) for pull in pulls_of(group) if (why := _doubt(case, pull))]
        if bad:
            pull, why = bad[0]
            yield decide(
                group.name,
                f"{group.name} was tightened with {pull.entry.wrench}, {why}.",
                to_do="Check again with a wrench in calibration, or the lead writes why it may stay.",
                proof=evidence(
                    *(p.act for p, _ in bad[:20]),
                    _suspected(case, pull),
                    photos=case.photos_of(group.name),
                ),
            )


def _doubt(case: Case, pull: Pull) -> str | None:
    known = _known(case, pull)
    if any(w.suspect_since is not None and pull.act.time >= w.suspect_since for w in known):
        return "which is in doubt since its last good day"
    due = max((w.due for w in known if w.due is not None), default=None)
    if due is not None and pull.act.time > due:
        return "whose calibration was overdue"
    if any(w.uses > MOST_USES for w in known):
        return f"which has pulled more than {MOST_USES} times since its calibration"
    return None


def _known(case: Case, pull: Pull) -> list[Wrench]:
    """List what this job and the others know of a wrench: it goes from job to job."""
    found = (job.wrenches.get(pull.entry.wrench or "") for job in (case.job, *case.others))
    return [wrench for wrench in found if wrench is not None]


def _suspected(case: Case, pull: Pull) -> Act | None:
    """Give the newest word against a wrench, so that a decision made before it does not cover it."""
    acts = [w.suspect for w in _known(case, pull) if w.suspect is not None and w.suspect_since is not None]
    return max(acts, default=None)
