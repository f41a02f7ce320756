"""Small jobs about one corner of the practice each give exactly their findings, whatever their arrival.

Every row names the lines of the practice that it was written from (a C and a number is a check of 4.2).
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.builders import Mark, Told, mark, told

from lastbolt import checks
from lastbolt.journal import entry_from
from lastbolt.report.verdict import verdicts

from .test_scenarios import ARRIVALS, arrived

ROWS: list[dict[str, Any]] = json.loads((Path(__file__).parent / "corners.json").read_text(encoding="utf-8"))
NAMES = [row["name"] for row in ROWS]
EVERY_CHECK_BUT = {"touched-by-another-job", "witness-mark-missing", "ticked-too-fast", "loose-again"}
"""Of the annex and the reports: told in tests/checks and tests/replay/incidents."""


def told_in(row: dict[str, Any]) -> Told:
    return told(*[(kind, dict(fields)) for kind, fields in row["lines"]])


def expected(row: dict[str, Any]) -> set[Mark]:
    return {(check, subject, severity) for check, subject, severity in row["expect"]}


@pytest.mark.parametrize("row", ROWS, ids=NAMES)
def test_gives_exactly_its_findings(row: dict[str, Any]) -> None:
    assert told_in(row).marks() == expected(row), row["practice"]


@pytest.mark.parametrize("how", ARRIVALS[1:])
def test_gives_them_in_any_order_of_arrival(how: str) -> None:
    other = {}
    for row in ROWS:
        entries = [entry_from(raw) for raw in told_in(row).raws]
        found = {(f.check, f.subject, mark(f)) for f in verdicts(arrived(entries, how), "job 1")[-1].findings}
        if found != expected(row):
            other[row["name"]] = found

    assert other == {}


def test_every_check_speaks_in_some_row() -> None:
    spoken = {check for row in ROWS for check, _, _ in row["expect"]}

    assert {checks.name_of(one) for one in checks.ALL} - spoken == EVERY_CHECK_BUT


def test_every_name_is_given_once() -> None:
    assert len(set(NAMES)) == len(NAMES)
