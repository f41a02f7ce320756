"""`plan-step-never-touched`: Something the plan expects was never touched."""

from __future__ import annotations

import pytest
from tests.builders import Line, decided, e, mark, out, set_of, told

CHECK = "plan-step-never-touched"
PLAN = e("plan-adopted", plan="pump", version="1", elements=["LID", "HOSE"])

SILENT = {
    "all of it was worked on": [PLAN, set_of(2), out(2), e("connection-parted", connection="HOSE")],
    "it was looked at": [PLAN, e("second-checked", by="Ben", elements=["LID", "HOSE"])],
    "the job uses no plan": [set_of(2)],
    "the lead says that it did not apply": [PLAN, out(2), decided("plan-step-never-touched", "HOSE")],
}
FIRES = {
    "one was never mentioned": (
        [PLAN, set_of(2), out(2)],
        "HOSE",
        "L",
        "HOSE is in the plan and was never touched",
    ),
    "saying so is not doing it": (
        [PLAN, out(2), e("step-done", name="hose", elements=["HOSE"])],
        "HOSE",
        "L",
        "HOSE",
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
