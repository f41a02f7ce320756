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


class Known(NamedTuple):
    """What is known of a wrench, over all jobs: it goes from one to the next."""

    doubts: list[tuple[datetime, Act]]
    passes: list[tuple[datetime, datetime | None]]
    told_due: datetime | None
    is_worn: bool

    @property
    def is_known(self) -> bool:
        """Tell whether anything was ever said of it that can speak against a pull."""
        return bool(self.doubts or self.passes or self.told_due or self.is_worn)


def check(case: Case) -> Iterator[Finding]:
    """Name each set with stages pulled by a doubtful wrench."""
    wrenches: dict[str, Known] = {}
    for group in case.job.sets.values():
        bad = []
        for pull in pulls_of(group):
            name = pull.entry.wrench or ""
            if name not in wrenches:
                wrenches[name] = _known(case, name)
            why = _why(wrenches[name], pull) if wrenches[name].is_known else None
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
                    *(p.act for p, _ in bad),
                    *(act for p, _ in bad for act in _doubts_of(wrenches[p.entry.wrench or ""], p)),
                    photos=case.photos_of(group.name),
                ),
            )


def _known(case: Case, name: str) -> Known:
    found = (job.wrenches.get(name) for job in (case.job, *case.others))
    wrenches = [wrench for wrench in found if wrench is not None]
    return Known(
        [doubt for w in wrenches for doubt in w.doubts],
        [one for w in wrenches for one in w.passes],
        max((w.told_due for w in wrenches if w.told_due is not None), default=None),
        any(w.uses > MOST_USES for w in wrenches),
    )


def _doubts_of(known: Known, pull: Pull) -> list[Act]:
    """List the doubts that reach a pull: from where each reaches back to the next calibration that passed."""
    found = []
    for since, act in known.doubts:
        good_again = min((day for day, _ in known.passes if day >= act.time), default=None)
        if since <= pull.act.time and (good_again is None or pull.act.time < good_again):
            found.append(act)
    return found


def _due(known: Known, at: datetime) -> datetime | None:
    """Give the last due date that counted at a moment: a calibration made later makes nothing good."""
    dues = [due for day, due in known.passes if day <= at and due is not None]
    return max([*dues, *([known.told_due] if known.told_due else [])], default=None)


def _why(known: Known, pull: Pull) -> str | None:
    if _doubts_of(known, pull):
        return said("which is in doubt since its last good day")
    due = _due(known, pull.act.time)
    if due is not None and pull.act.time > due:
        return said("whose calibration was overdue")
    if known.is_worn:
        return said("which has pulled more than {n} times since its calibration", n=MOST_USES)
    return None
