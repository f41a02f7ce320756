"""What next for a job as it stands: what the checks say must be mended first, then the open steps."""

from __future__ import annotations

from collections.abc import Iterable

from .. import checks
from ..finding import Case
from ..label_code import printed
from ..plan.next_step import NextSteps, next_steps
from ..plan.step import Step
from ..state.job import Job

FINISHING = frozenset({"locking-missing", "second-person-missing", "single-use-reused", "stage-or-sequence"})
"""What a set that is back in may still owe before the next part covers it."""


def what_next(job: Job, others: Iterable[Job] = ()) -> NextSteps:
    """Say what to do next: first what stands and must be mended now, then the rest in its order."""
    standing = checks.run(Case(job, tuple(others), asking="live", at=job.now))
    owed = checks.run(Case(job, tuple(others), at=job.now))
    return next_steps(
        job,
        [f for f in standing if f.check in checks.INTERRUPTING],
        due=[f for f in owed if f.check in FINISHING],
    )


def next_text(steps: NextSteps) -> str:
    """Write the next steps for the terminal."""
    if steps.big is None:
        waiting = [f"Waits: {step.sentence} ({step.waits_for})" for step in steps.waiting]
        return "\n".join(["Nothing can be done now." if waiting else "Nothing is left to do.", *waiting])
    return "\n".join([f"Next: {_said(steps.big)}", *(f"Or: {_said(step)}" for step in steps.small)])


def _said(step: Step) -> str:
    fetched = [f"{printed(f.container)} ({f.n}{', ' + f.place if f.place else ''})" for f in step.fetch]
    extra = [
        f"Fetch {', '.join(fetched)}." if fetched else "",
        f"Bring {', '.join(step.bring)}." if step.bring else "",
        step.why,
    ]
    return " ".join([step.sentence, *(part for part in extra if part)])
