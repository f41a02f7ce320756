"""Further scenarios, written from the practice text alone, give exactly their verdicts and live findings."""

from __future__ import annotations

from typing import Any

import pytest

from lastbolt.journal import entry_from
from lastbolt.report.verdict import live_findings, verdicts

from .more_scenario_journal import MORE_SCENARIOS, journal_of
from .scenario_journal import CHECKS
from .test_scenarios import ARRIVALS, SEVERITY, arrived

NAMES = [s["id"] for s in MORE_SCENARIOS]


@pytest.mark.parametrize("how", ARRIVALS)
@pytest.mark.parametrize("devices", [1, 3])
@pytest.mark.parametrize("scenario", MORE_SCENARIOS, ids=NAMES)
def test_gives_exactly_the_verdicts(scenario: dict[str, Any], devices: int, how: str) -> None:
    entries = arrived([entry_from(raw) for raw in journal_of(scenario, devices)], how)

    given = [
        {(f.check, f.subject, f.severity.value, f.waivable) for f in verdict.findings}
        for verdict in verdicts(entries, "job 1")[:-1]
    ]

    assert given == [
        {(CHECKS.get(check, check), subject, *SEVERITY[mark]) for check, subject, mark in expected}
        for expected in scenario["expect"]
    ]


@pytest.mark.parametrize("scenario", MORE_SCENARIOS, ids=NAMES)
def test_raises_exactly_the_live_findings(scenario: dict[str, Any]) -> None:
    entries = [entry_from(raw) for raw in journal_of(scenario, 2)]

    raised = {(f.check, f.subject) for _, f in live_findings(entries, "job 1")}

    assert raised == {(CHECKS.get(check, check), subject) for check, subject in scenario["live"]}
