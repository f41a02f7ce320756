"""Whether somebody else has looked at a piece of work since it was done (practice C41)."""

from __future__ import annotations

from collections.abc import Collection

from .fastener_set import Act, FastenerSet
from .job import Job
from .later_look import SAME_PERSON, last_done


def is_set_seen(job: Job, group: FastenerSet) -> bool:
    """Tell whether somebody who fitted or tightened none of a set has found it good since."""
    return is_seen(job, group.name, doers=group.fitted_by, since=last_done(group))


def is_seen(job: Job, name: str, *, doers: Collection[str], since: Act | None) -> bool:
    """Tell whether the last look at a thing by somebody else, after it was done, found it good."""
    results = [
        result
        for act, how, result in job.second_checks.get(name, ())
        if act.by not in doers and how != SAME_PERSON and (since is None or act.when >= since.when)
    ]
    return results[-1:] == ["good"]
