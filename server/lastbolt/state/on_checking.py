"""How entries about looks, tests, decisions and releases change a job."""

from __future__ import annotations

from collections.abc import Container

from ..journal.checking import (
    FindingDecided,
    HoldDescribed,
    HoldReleased,
    JobReopened,
    ReleaseAsked,
    ReleaseSigned,
    ReleaseWithdrawn,
    SecondChecked,
    TestDescribed,
    TestRun,
)
from ..journal.envelope import Envelope
from ..journal.machine import AccessSaid
from .elements import FunctionTest, Hold
from .fastener_set import Act
from .job import Decided, Job

IN_A_PLAN = 2
"""How far an edge of the access map is relied on that a description gives (practice 2.4)."""


def check_second(job: Job, e: SecondChecked, act: Act) -> None:
    """A second person's look, element by element."""
    if e.torque_again:
        job.tried_again.add(act.id)
    for name in e.elements:
        job.second_checks[name].append((act, e.how, e.result))


def describe_hold(job: Job, e: HoldDescribed, act: Act) -> None:
    """A hold point before something."""
    hold = job.holds.setdefault(e.hold, Hold(e.hold, e.before))
    hold.before, hold.witness_only, hold.role_wanted = e.before, e.witness_only, e.role_wanted
    hold.text = e.text or ""


def release_hold(job: Job, e: HoldReleased, act: Act) -> None:
    """Looked; after it was passed only a late look counts, and only one by the role that was named."""
    hold = job.holds.setdefault(e.hold, Hold(e.hold, ""))
    roles = job.people.get(e.by)
    if hold.role_wanted and roles is not None and hold.role_wanted not in (*roles, e.by, e.role):
        return
    if (hold.passed is None and e.mode != "late") or e.late:
        hold.released, hold.passed = act, None


PUT_TOGETHER = frozenset({"fasteners-fitted", "connection-made", "opening-closed", "fluid-filled"})
TAKEN_APART = frozenset({"fasteners-removed", "connection-parted", "opening-opened", "fluid-drained"})


def note_holds(job: Job, act: Act, about: Container[object]) -> None:
    """Hold points before something that is no part and no test: a set, a connection, a mouth, a fluid.

    Where a part bears the same name, the part's going on is what the hold point is before.
    """
    if act.kind not in PUT_TOGETHER and act.kind not in TAKEN_APART:
        return
    for hold in job.holds.values():
        if hold.before not in about or hold.before in job.parts:
            continue
        if act.kind in TAKEN_APART:
            hold.passed = hold.released = None
        elif hold.released is None:
            hold.passed = act


def describe_test(job: Job, e: TestDescribed, act: Act) -> None:
    """A function test, its scope, and the part that may not go on over it before it was passed."""
    job.tests.setdefault(e.test, FunctionTest(e.test)).scope = e.scope
    if e.before:
        told = {"kind": "access-said", "part": e.before, "element": e.test, "strength": IN_A_PLAN}
        shared = e.model_dump(include=set(Envelope.model_fields))
        job.access.append(AccessSaid.model_validate(shared | told))


def run_test(job: Job, e: TestRun, act: Act) -> None:
    """Run, passed or failed; a hold point before it may be passed by."""
    test = job.tests.setdefault(e.test, FunctionTest(e.test))
    test.run, test.passed = act, e.passed
    for name in test.scope:
        if name in job.curing:
            job.tested_wet.pop(name, None)
            if act.time < job.curing[name][1]:
                job.tested_wet[name] = act, e.test
    for hold in job.holds.values():
        if hold.before == e.test and hold.released is None:
            hold.passed = act


def decide(job: Job, e: FindingDecided, act: Act) -> None:
    """The newest word on a finding counts."""
    job.decisions[(e.check, e.subject)] = Decided(act, e)


def ask(job: Job, e: ReleaseAsked, act: Act) -> None:
    """A release was asked for."""
    job.asked.append(act)
    if e.nothing_else_apart is not None:
        job.nothing_else_apart = e.nothing_else_apart


def sign(job: Job, e: ReleaseSigned, act: Act) -> None:
    """Released."""
    job.released = act
    job.touched_after_release.clear()


def withdraw(job: Job, e: ReleaseWithdrawn, act: Act) -> None:
    """No longer released."""
    job.released = None


def reopen(job: Job, e: JobReopened, act: Act) -> None:
    """Work goes on, after a release or after the job was cancelled."""
    job.released, job.ended, job.reopened = None, None, act
    job.touched_after_release.clear()
