"""`test-missing-or-stale`: A function test was not run, failed, or is out of date."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "test-missing-or-stale"
TEST = e("test-described", test="LIFT", scope=["HOSE"])
RUN = e("test-run", test="LIFT", passed=True)
TOUCH = e("connection-parted", connection="HOSE")

SILENT = {
    "it passed": [TEST, RUN],
    "what was touched lies outside its scope": [TEST, RUN, e("connection-parted", connection="LAMP")],
    "it was run again": [TEST, RUN, TOUCH, RUN],
}
FIRES = {
    "it was not run": ([TEST], "LIFT", "B", "LIFT was not run"),
    "it failed": ([TEST, e("test-run", test="LIFT", passed=False)], "LIFT", "B", "LIFT failed"),
    "its scope was touched later": (
        [TEST, RUN, TOUCH],
        "LIFT",
        "B",
        "LIFT is out of date: HOSE was touched after it",
    ),
}


@pytest.mark.parametrize("lines", SILENT.values(), ids=SILENT)
def test_stays_silent_when(lines: list[Line]) -> None:
    assert told(*lines).findings(CHECK) == []


@pytest.mark.parametrize(("lines", "subject", "severity", "words"), FIRES.values(), ids=FIRES)
def test_fires_when(lines: list[Line], subject: str, severity: str, words: str) -> None:
    (finding,) = told(*lines).findings(CHECK)

    assert (finding.subject, mark(finding)) == (subject, severity)
    assert words in finding.sentence
    assert finding.to_do
