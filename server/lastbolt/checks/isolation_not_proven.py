"""Work began before energy was proven off.

What it finds: work in the reach of an isolation point before the point was proven dead, or after it was
    lifted.

Why it matters: the switch that was thrown was the wrong one: only trying shows it.

Example: a hose was parted again after the arm stops had come off.

How to clear it: the lead writes what was done instead; it cannot be undone.

Silent when: the work lies outside the reach of the point; only paper, photos, filling or setting.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 2
LIVE = True


def check(case: Case) -> Iterator[Finding]:
    """Name each isolation point that was worked on live."""
    for point in case.job.isolations.values():
        if point.worked_live is not None:
            yield decide(
                point.name,
                said(
                    "{who} worked while {point} was not proven off.",
                    who=point.worked_live.by,
                    point=point.name,
                ),
                to_do="The lead writes what kept people out of harm, and what is done next time.",
                proof=evidence(point.worked_live, photos=case.photos_of(point.name)),
            )
