"""A verdict beside the jobs it can depend on is the verdict beside all jobs."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import Told

from lastbolt.report.related import Neighbours, footprint, related
from lastbolt.report.verdict import judge
from lastbolt.state.job import Job

MACHINES = ("the loader", "the launch", "the baler", "")
TRAYS = ("T1", "T2", "T3", "green bin")
WRENCHES = ("W1", "W2", "W3")
SETS = ("LID", "CAP", "PUMP")


def told_job(random: Random, number: int) -> Told:
    """Tell a job of a busy shop: trays, wrenches and machines are shared with the others."""
    told = Told(
        job=f"job {number}", machine=random.choice(MACHINES) or "x", level=random.choice((1, 2, 3)),
        start=f"{random.randint(1, 9)} 08:00", practice=random.random() < 0.1,
    )  # fmt: skip
    for _ in range(random.randint(1, 14)):
        name, tray, wrench = random.choice(SETS), random.choice(TRAYS), random.choice(WRENCHES)
        kind, fields = random.choice(
            [
                ("fasteners-removed", {"set": name, "n": 4, "to": tray, "type": "M6x20"}),
                ("fasteners-fitted", {"set": name, "n": 4, "source": tray}),
                ("container-emptied", {"container": tray}),
                ("container-scanned", {"container": tray}),
                ("label-bound", {"label": tray, "container": f"{tray} of {number}"}),
                ("label-retired", {"label": tray}),
                ("spec-entered", {"set": name, "min_nm": 20, "max_nm": 25, "source": "manual p. 1"}),
                ("fasteners-tightened", {"set": name, "value_nm": 22, "wrench": wrench, "holes": [1, 2]}),
                ("wrench-described", {"wrench": wrench, "due": f"2026-03-{random.randint(1, 28):02d}T00:00:00Z"}),
                ("wrench-suspected", {"wrench": wrench, "why": "it was dropped"}),
                (
                    "wrench-calibrated",
                    {"wrench": wrench, "calibrated_on": "2026-03-02", "passed": random.random() < 0.5},
                ),
                ("thing-lost", {"loss": f"L{number}", "what": "a bolt", "set": name, "type": "M6x20"}),
                ("thing-found", {"find": f"F{number}", "matches": f"L{number}", "type": "M6x20"}),
                ("fasteners-found-bad", {"set": name, "holes": [1], "defect": "loose"}),
                ("part-removed", {"part": name}),
                ("isolation-applied", {"isolation": "battery"}),
                ("job-linked", {"other": f"job {random.randint(0, 5)}"}),
                ("set-described", {"set": name, "n": 4, "critical": True}),
                ("second-checked", {"elements": [name], "how": "re-look-same-person"}),
                ("release-signed", {"statement": "looked at it"}),
                ("job-cancelled", {"reason": "sold"}),
                (
                    "finding-decided",
                    {
                        "check": "hole-empty", "subject": name, "decision": "defer", "reason": "a long reason",
                        "limit": "2026-04-01T00:00:00Z", "barrier": "tag", "second": "Ida",
                    },
                ),
            ]
        )  # fmt: skip
        told.say(kind, by=random.choice(("Ana", "Ben")), after=random.choice((1, 1, 40, 600)), **fields)
    return told


def shop_of(seed: int) -> list[Job]:
    random = Random(seed)
    return [told_job(random, number).state for number in range(random.randint(2, 6))]


def others_of(jobs: list[Job], job: Job) -> tuple[Job, ...]:
    return tuple(one for one in jobs if one is not job and not one.is_practice)


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**9))
def test_no_verdict_differs_when_unrelated_jobs_are_left_out(seed: int):
    jobs = shop_of(seed)
    for job in jobs:
        others = others_of(jobs, job)
        near = related(job, others)
        for asking in ("release", "start"):
            assert judge(job, near, asking=asking).findings == judge(job, others, asking=asking).findings


def test_the_shops_tried_above_do_hold_findings_across_jobs():
    """Else the test above would compare nothing with nothing."""
    seen = set()
    for seed in range(150):
        jobs = shop_of(seed)
        for job in jobs:
            alone = {(f.key, f.sentence) for f in judge(job, ()).findings}
            beside = judge(job, others_of(jobs, job)).findings
            seen |= {f.check for f in beside if (f.key, f.sentence) not in alone}
    assert seen >= {
        "tray-of-another-job", "other-job-open-on-the-machine", "touched-by-another-job", "loose-again",
        "wrench-not-in-calibration", "lost-maybe-inside", "second-person-missing",
    }  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**9))
def test_what_changes_names_every_job_whose_verdict_may_differ(seed: int):
    random = Random(seed)
    stories = [told_job(random, number) for number in range(random.randint(2, 5))]
    near, states = Neighbours(), [told.state for told in stories]
    for state in states:
        near.put(footprint(state))
    before = {state.name: judge(state, others_of(states, state)).findings for state in states}
    changed = random.randrange(len(stories))
    grown = told_job(Random(seed + 1), changed)
    states[changed] = grown.state
    named = near.put(footprint(states[changed]))
    for state in states:
        if state.name not in named:
            assert judge(state, others_of(states, state)).findings == before[state.name]


@pytest.mark.parametrize("practice", [True, False])
def test_a_practice_job_shows_nothing_to_others(practice: bool):
    told = Told(practice=practice)
    told.say("fasteners-removed", set="LID", n=4, to="T1")
    assert bool(footprint(told.state).shows) is not practice
