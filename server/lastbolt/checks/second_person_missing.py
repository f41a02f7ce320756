"""Nobody but the doer has looked at a critical set.

What it finds: a set that wants a second person, worked on, with no good look after the last tightening
    by somebody who fitted or tightened none of it.

Why it matters: the eye that made the mistake does not see it.

Example: Eva checked Eva.

How to clear it: a second person looks; in a one-person shop a later look by the same person, recorded as
    such, is for the lead to accept.

Silent when: the set was not touched.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence, stop
from ..said import said
from ..state.fastener_set import was_touched

LEVEL = 3
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each critical set without a second person's look."""
    for group in case.job.sets.values():
        wanted = group.critical or bool(group.described and group.described.second_person)
        if not wanted or not was_touched(group) or not group.fitted_by:
            continue
        since = group.last_final or max((h.fitted for h in group.holes.values() if h.fitted), default=None)
        looks = case.job.second_checks.get(group.name, [])
        results = [
            result
            for act, how, result in looks
            if act.by not in group.fitted_by
            and how != "re-look-same-person"
            and (since is None or act.time >= since.time)
        ]
        if results and results[-1] == "good":
            continue
        build = stop if group.critical else decide
        yield build(
            group.name,
            said(
                "{set} was tightened by {people} and no second person has looked since.",
                set=group.name,
                people=", ".join(sorted(group.fitted_by)),
            ),
            to_do="Somebody who did none of it looks, and records it.",
            proof=evidence(since, *(act for act, _, _ in looks), photos=case.photos_of(group.name)),
        )
