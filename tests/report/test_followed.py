"""Doing what is said next, again and again, ends a job that was taken apart with nothing on its list."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from tests.replay.scenario_journal import Journal
from tests.report.journals import job_of, scenario, verdict_of

from lastbolt.journal import AnyEntry, entry_from
from lastbolt.plan.step import Step
from lastbolt.report.what_next import what_next
from lastbolt.state.fastener_set import Reach
from lastbolt.state.job import Job

Act = tuple[str, dict[str, Any]]


def done(job: Job, step: Step) -> list[Act]:
    """What a careful person records when they do a step."""
    name = step.element
    return {
        "fit": lambda: fitted(job, name),
        "tighten": lambda: tightened(job, name),
        "put on": lambda: [("part-fitted", {"part": name})],
        "connect": lambda: [("connection-made", {"connection": name, "photos": ["after"]})],
        "try": lambda: [("connection-made", {"connection": name})],
        "close": lambda: closed(job, name),
        "renew": lambda: [("renewal-seen-off", {"renewal": name}), ("renewal-fitted", {"renewal": name})],
        "call": lambda: [("hold-released", {"hold": name, "by": "Lee"})],
        "finish": lambda: [("second-checked", {"elements": [name], "by": "Cho"})],
        "set": lambda: [("setting-set", {"setting": name, "value": job.settings[name].found[1]})],
        "fill": lambda: [("fluid-filled", {"fluid": name, "litres": job.fluids[name].drained_l}), ("fluid-checked", {"fluid": name})],
        "restore": lambda: [("isolation-removed", {"isolation": name, "by": job.isolations[name].holder})],
        "test": lambda: [("test-run", {"test": name, "passed": True})],
    }[step.kind]()  # fmt: skip


def fitted(job: Job, name: str) -> list[Act]:
    bags = [c for c in job.containers if job.ledger.balance(c, name)]
    return [
        ("fasteners-fitted", {"set": name, "n": job.ledger.balance(bag, name), "source": bag}) for bag in bags
    ]


def tightened(job: Job, name: str) -> list[Act]:
    group = job.sets[name]
    holes = list(group.spec.order) if group.spec and group.spec.order else sorted(group.holes)
    top = group.spec.max_nm if group.spec else 10
    wrench = "W1" if top < 20 else "W2" if top < 100 else "W3"
    low = max(top / 2, {"W1": 5, "W2": 20, "W3": 40}[wrench])
    values = [low] * (group.stage_count - 1) + [(group.spec.min_nm + top) / 2]
    return [
        (
            "fasteners-tightened",
            {"set": name, "holes": holes, "stage": stage, "value_nm": value, "wrench": wrench},
        )
        for stage, value in enumerate(values, start=1)
    ]


def closed(job: Job, name: str) -> list[Act]:
    covered = [("opening-uncovered", {"opening": name})] if job.openings[name].covers else []
    return [*covered, ("looked-inside", {"opening": name}), ("opening-closed", {"opening": name})]


def followed(name: str, until: str, by: str) -> tuple[list[AnyEntry], list[str]]:
    entries = scenario(name, until)
    journal, now, said = Journal(), max(e.at for e in entries), []
    for _ in range(60):
        job = job_of(entries)
        step = what_next(job).big
        if step is None:
            return entries, said
        said.append(f"{step.kind} {step.element}")
        for kind, fields in done(job, step):
            now += timedelta(minutes=1)
            journal.add(kind, now, **{"by": by, "device": "a second phone"} | fields)
        entries = [*scenario(name, until), *(entry_from(raw) for raw in journal.entries)]
    raise AssertionError(f"it never ends: {said}")


@pytest.mark.parametrize(
    ("name", "until", "by"), [("C0", "1 12:07", "Ben"), ("S7", "1 08:40", "Ana"), ("S7", "1 11:20", "Ana")]
)
def test_following_the_next_step_ends_with_nothing_on_the_list(name: str, until: str, by: str):
    entries, said = followed(name, until, by)

    assert [f.sentence for f in verdict_of(entries).findings] == []
    assert len(said) == len(set(said))
    assert all(
        hole.reach is Reach.FINAL for group in job_of(entries).sets.values() for hole in group.holes.values()
    )


def test_the_clean_job_is_put_together_in_an_order_that_a_person_would_choose():
    _, said = followed("C0", "1 12:07", "Ben")

    assert (
        said.index("renew PUMP GASKET")
        < said.index("put on PUMP")
        < said.index("fit PUMP")
        < said.index("tighten PUMP")
    )
    assert said.index("finish PUMP") < said.index("call LOOK UNDER COVER") < said.index("put on COVER")
    assert said[-3:] == ["fill COOLANT", "restore BATTERY", "test RUN"]
