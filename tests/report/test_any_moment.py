"""At any moment of any journal, in any order of arrival, every question has an answer and no word promises."""

from __future__ import annotations

import random
import re

import pytest
from tests.replay.scenario_journal import SCENARIOS
from tests.report.journals import scenario

from lastbolt.journal import AnyEntry
from lastbolt.journal.order import effective, in_order
from lastbolt.plan.access import access_map, cycles
from lastbolt.plan.from_past_job import differences, plan_from
from lastbolt.plan.order_list import order_list
from lastbolt.plan.time_left import active_minutes, time_left
from lastbolt.plan.undo import undo_path
from lastbolt.plan.unreachable import unreachable_after
from lastbolt.plan.where_to_look import where_to_look
from lastbolt.report.handover import handover_sheet, handover_text
from lastbolt.report.questions import questions
from lastbolt.report.start_guard import start_guard, start_text
from lastbolt.report.text import verdict_text
from lastbolt.report.verdict import judge, states
from lastbolt.report.what_next import next_text, what_next

PROMISES = re.compile(r"\b(safe|ok|airworthy|verified)\b", re.IGNORECASE)


def answers(entries: list[AnyEntry]) -> list[str]:
    """Ask everything about job 1 as these entries leave it."""
    timeline = in_order(entries)
    jobs = states(timeline)
    job = jobs.pop("job 1")
    others = tuple(jobs.values())
    own = [h.entry for h in effective(timeline) if h.entry.job == "job 1"]
    verdict = judge(job, others)
    things = [*job.sets, *job.parts, *job.renewals, *job.openings]
    plan = plan_from([job], name="again")
    return [
        verdict_text(verdict),
        handover_text(handover_sheet(job, verdict, own)),
        start_text(start_guard(job, others)),
        next_text(what_next(job, others)),
        *(undo_path(job, name).sentence for name in things),
        *(cycle.sentence for cycle in cycles(access_map(job))),
        *(said for part in job.parts for said in unreachable_after(job, part).owed),
        *(f"{line.what} {line.why}" for line in order_list(job)),
        time_left(job, active_minutes(h for h in timeline if h.entry.job == "job 1")).sentence,
        *(" ".join(look.why) for look in where_to_look(job)),
        *(question.text for question in (*questions(job), *questions(job, "handover"))),
        *(difference.sentence for difference in differences(plan, job)),
    ]


@pytest.mark.parametrize("name", [s["id"] for s in SCENARIOS])
def test_every_prefix_of_every_scenario_is_answered(name: str):
    entries = scenario(name)
    first = next(n for n, entry in enumerate(entries, start=1) if entry.kind == "job-opened")
    for n in range(first, len(entries) + 1):
        assert [said for said in answers(entries[:n]) if PROMISES.search(said)] == []


@pytest.mark.parametrize("name", ["S1", "S4", "S7", "S8"])
def test_the_order_of_arrival_changes_no_answer(name: str):
    entries = scenario(name, devices=3)
    shuffled = random.Random(3).sample(entries * 2, 2 * len(entries))

    assert answers(shuffled) == answers(entries)


@pytest.mark.parametrize("name", ["S1", "S5", "C0"])
def test_half_of_the_entries_missing_is_answered_too(name: str):
    entries = scenario(name)
    draw = random.Random(11)
    for _ in range(10):
        kept = [entry for entry in entries if entry.kind == "job-opened" or draw.random() < 0.5]
        assert all(isinstance(said, str) and said for said in answers(kept))
