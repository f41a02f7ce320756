"""`late-entry`: Entries were written down afterwards."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "late-entry"
LATE = e(
    "part-removed", part="LID", mode="late", happened_at="2026-03-02T07:00:00+00:00", late_reason="no signal"
)

SILENT = {
    "nothing was late": [set_of(2), out(2), back(2)],
    "nothing was recorded at all": [],
    "the lead read them": [LATE, decided("late-entry", "job 1")],
}
FIRES = {
    "one of many": (
        [*[e("container-scanned", container="T1")] * 3, LATE],
        "job 1",
        "I",
        "1 of 5 entries were written down afterwards",
    ),
    "more than a quarter": ([LATE], "job 1", "L", "1 of 2 entries were written down afterwards"),
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
