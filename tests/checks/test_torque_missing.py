"""`torque-missing`: A fastener that owes a torque has none."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "torque-missing"

SILENT = {
    "all are pulled": [set_of(4), value_of(), out(4), back(4), pulled()],
    "the set has no value": [set_of(4), out(4), back(4)],
    "it is hand tight by design": [set_of(4), e("spec-entered", set="LID", hand_tight=True), out(4), back(4)],
    "the set was never touched": [set_of(4), value_of()],
}
FIRES = {
    "one was not pulled": (
        [set_of(4), value_of(), out(4), back(4), pulled(holes=[1, 2, 3])],
        "LID",
        "B",
        "LID: 1 fastener is fitted and not tightened to the value (4)",
    ),
    "the last stage is missing": (
        [set_of(2), value_of(stage_count=2), out(2), back(2), pulled(10, stage=1)],
        "LID",
        "B",
        "2 fasteners are fitted",
    ),
    "the entry gives neither torque nor angle": (
        [set_of(2), value_of(), out(2), back(2), pulled(None)],
        "LID",
        "B",
        "2 fasteners",
    ),
    "what was slackened is tight again without its value": (
        [set_of(2), value_of(), e("fasteners-loosened", set="LID"), e("fasteners-retightened", set="LID")],
        "LID",
        "B",
        "2 fasteners",
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
