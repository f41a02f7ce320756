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
from datetime import datetime
from typing import NamedTuple

from ..finding import Case, Finding, decide, evidence
from ..said import said
from ..state.fastener_set import Act, Pull
from ..state.readiness import pulls_of

LEVEL = 3
LIVE = True


MOST_USES = 5000
"""ISO 6789 interval where the owner has no own scheme; from memory."""


class Doubt(NamedTuple):
    """What speaks against a wrench, over all jobs: it goes from one to the next."""

    suspect_since: datetime | None
    word: Act | None
    due: datetime | None
    is_worn: bool


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stages pulled by a doubtful wrench."""
    doubts: dict[str, Doubt] = {}
    for group in case.job.sets.values():
        bad = []
        for pull in pulls_of(group):
            name = pull.entry.wrench or ""
            if name not in doubts:
                doubts[name] = _doubt(case, name)
            why = _why(doubts[name], pull)
            if why:
                bad.append((pull, why))
        if bad:
            pull, why = bad[0]
            yield decide(
                group.name,
                said(
                    "{set} was tightened with {wrench}, {why}.",
                    set=group.name,
                    wrench=pull.entry.wrench,
                    why=why,
                ),
                to_do="Check again with a wrench in calibration, or the lead writes why it may stay.",
                proof=evidence(
                    *(p.act for p, _ in bad[:20]),
                    doubts[pull.entry.wrench or ""].word,
                    photos=case.photos_of(group.name),
                ),
            )


def _doubt(case: Case, name: str) -> Doubt:
    found = (job.wrenches.get(name) for job in (case.job, *case.others))
    known = [wrench for wrench in found if wrench is not None]
    good = max((w.good_since for w in known if w.good_since is not None), default=None)
    suspected = [
        w
        for w in known
        if w.suspect is not None
        and w.suspect_since is not None
        and not (good is not None and good.date() > w.suspect.time.date())
    ]
    return Doubt(
        min((w.suspect_since for w in suspected if w.suspect_since is not None), default=None),
        max((w.suspect for w in suspected if w.suspect is not None), default=None),
        max((w.due for w in known if w.due is not None), default=None),
        any(w.uses > MOST_USES for w in known),
    )


def _why(doubt: Doubt, pull: Pull) -> str | None:
    if doubt.suspect_since is not None and pull.act.time >= doubt.suspect_since:
        return said("which is in doubt since its last good day")
    if doubt.due is not None and pull.act.time > doubt.due:
        return said("whose calibration was overdue")
    if doubt.is_worn:
        return said("which has pulled more than {n} times since its calibration", n=MOST_USES)
    return None
