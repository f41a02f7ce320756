"""A verdict in words: the headline counts, the findings come worst first, the limits stand below."""

from __future__ import annotations

import re

import pytest
from tests.replay.scenario_journal import SCENARIOS
from tests.report.journals import Written, scenario, verdict_of

from lastbolt.report.text import LIMITS, NOTHING, headline, verdict_text


def test_counts_what_stops_what_needs_a_word_and_what_did_not_run():
    verdict = verdict_of(scenario("S8", "1 09:15"))

    assert headline(verdict) == "2 things stop release, 5 need the lead's word."


def test_one_of_each_is_said_in_the_singular():
    job = Written(level=1).add("fasteners-removed", set="LID", n=2, to="B1")
    job.add("container-described", container="B1", container_kind="bag").add(
        "fasteners-fitted", set="LID", n=1, source="B1"
    )
    job.add("container-counted", container="B1", n=0)

    assert re.match(
        r"^1 thing stops release, 1 needs the lead's word, \d+ checks not run at this level\.$",
        headline(job.verdict),
    )


def test_an_empty_list_is_said_so_and_promises_nothing():
    text = verdict_text(verdict_of(scenario("C0")))

    assert NOTHING + "." in text
    assert "not that the machine is fit to run" in text


def test_at_a_low_level_the_checks_that_did_not_run_are_named():
    job = (
        Written(level=1)
        .add("fasteners-removed", set="LID", n=2, to="B1")
        .add("fasteners-fitted", set="LID", n=2, source="B1")
    )
    text = verdict_text(job.verdict)

    assert "Not checked at this level:" in text
    assert "torque-missing" in text


def test_findings_come_worst_first_each_with_what_to_do():
    verdict = verdict_of(scenario("S4", "1 16:40"))
    text = verdict_text(verdict)
    marks = [
        line.split(":")[0]
        for line in text.splitlines()
        if re.match(r"(Stops release|Needs the lead|Note)", line)
    ]
    order = ["Stops release, no word can lift it", "Stops release", "Needs the lead's word", "Note"]

    assert len(marks) == len(verdict.findings) > 3
    assert [order.index(mark) for mark in marks] == sorted(order.index(mark) for mark in marks)
    assert text.count("To do:") == len(verdict.findings)


@pytest.mark.parametrize("name", [s["id"] for s in SCENARIOS])
def test_no_line_is_wider_than_a_page_and_no_word_promises(name: str):
    text = verdict_text(verdict_of(scenario(name)))

    assert max(len(line) for line in text.splitlines()) <= 100
    assert re.findall(r"\b(safe|ok|airworthy|verified)\b", text, re.IGNORECASE) == []
    assert all(" ".join(limit.split()) in " ".join(text.split()) for limit in LIMITS)
