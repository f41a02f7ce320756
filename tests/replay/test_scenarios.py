"""Every acceptance scenario gives exactly its verdicts and live findings, whatever the arrival of its entries."""

from __future__ import annotations

import random

import pytest

from lastbolt.journal import AnyEntry, entry_from
from lastbolt.report.verdict import live_findings, verdicts

from .scenario_journal import CHECKS, SCENARIOS, journal_of

SEVERITY = {"B!": ("stop", False), "B": ("stop", True), "L": ("decide", True), "I": ("note", True)}
ARRIVALS = ("in order", "reversed", "shuffled", "every entry twice")


def subject_of(text: str) -> str:
    return "job 311" if text.startswith("job 311") else text


def arrived(entries: list[AnyEntry], how: str) -> list[AnyEntry]:
    if how == "reversed":
        return entries[::-1]
    if how == "shuffled":
        return random.Random(7).sample(entries, len(entries))
    return entries * 2 if how == "every entry twice" else entries


@pytest.mark.parametrize("how", ARRIVALS)
@pytest.mark.parametrize("devices", [1, 2, 3])
@pytest.mark.parametrize("scenario", SCENARIOS, ids=[s["id"] for s in SCENARIOS])
def test_gives_exactly_the_verdicts(scenario: dict, devices: int, how: str) -> None:
    entries = arrived([entry_from(raw) for raw in journal_of(scenario, devices)], how)

    given = [
        {(f.check, f.subject, f.severity.value, f.waivable) for f in verdict.findings}
        for verdict in verdicts(entries, "job 1")[:-1]
    ]

    assert given == [
        {(CHECKS[check], subject_of(subject), *SEVERITY[mark]) for check, subject, mark in expected}
        for expected in scenario["expect"]
    ]


@pytest.mark.parametrize("devices", [1, 3])
@pytest.mark.parametrize("scenario", SCENARIOS, ids=[s["id"] for s in SCENARIOS])
def test_raises_exactly_the_live_findings(scenario: dict, devices: int) -> None:
    entries = [entry_from(raw) for raw in journal_of(scenario, devices)]

    raised = {(f.check, f.subject) for _, f in live_findings(entries, "job 1")}

    assert raised == {(CHECKS[check], subject_of(subject)) for check, subject in scenario["live"]}
