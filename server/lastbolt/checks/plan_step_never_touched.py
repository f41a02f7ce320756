"""Something the plan expects was never touched.

What it finds: a thing of the adopted plan that nobody worked on, looked at or tested in this job.

Why it matters: it is the only rule that sees a thing that nobody logged.

Example: the plan has a pump gasket; this job never mentions it.

How to clear it: record it; or the lead says that it did not apply.

Silent when: the job uses no plan.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Case, Finding, decide, evidence
from ..said import said

LEVEL = 1
LIVE = False


def check(case: Case) -> Iterator[Finding]:
    """Name each planned element without an entry."""
    for name in sorted(case.job.plan_elements - case.job.recorded.keys()):
        yield decide(
            name,
            said("{name} is in the plan and was never touched in this job.", name=name),
            to_do="Record what was done with it, or the lead says that it did not apply.",
            proof=evidence(photos=case.photos_of(name)),
        )
