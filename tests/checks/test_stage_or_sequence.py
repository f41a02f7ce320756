"""`stage-or-sequence`: A stage was skipped, or the order was not the one given."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, mark, out, pulled, set_of, told, value_of

CHECK = "stage-or-sequence"
ORDER = [1, 3, 2, 4]
FITTED = [set_of(4), value_of(stage_count=2, order=ORDER), out(4), back(4)]

SILENT = {
    "each stage came after the one before": [
        *FITTED,
        pulled(10, stage=1, holes=ORDER),
        pulled(22, stage=2, holes=ORDER),
    ],
    "the order does not matter": [
        set_of(4),
        value_of(order=ORDER, order_matters=False),
        out(4),
        back(4),
        pulled(holes=[1, 2, 3, 4]),
    ],
    "the order was not said": [*FITTED, pulled(10, stage=1), pulled(22, stage=2)],
    "only part of the set was done again": [
        *FITTED,
        pulled(10, stage=1, holes=ORDER),
        pulled(22, stage=2, holes=ORDER),
        pulled(22, stage=2, holes=[2, 1]),
    ],
    "the lead accepts the order": [
        *FITTED,
        pulled(10, stage=1, holes=ORDER),
        pulled(22, stage=2, holes=[1, 2, 3, 4]),
        decided("stage-or-sequence", "LID"),
    ],
}
FIRES = {
    "a stage was skipped": ([*FITTED, pulled(22, stage=2, holes=ORDER)], "LID", "B", "a stage was skipped"),
    "the order is another": (
        [*FITTED, pulled(10, stage=1, holes=ORDER), pulled(22, stage=2, holes=[1, 2, 3, 4])],
        "LID",
        "L",
        "in the order 1-2-3-4; 1-3-2-4 is asked",
    ),
    "two passes went in one turn": (
        [*FITTED, pulled(10, stage=1, holes=ORDER), pulled(22, stage=2, holes=ORDER, one_turn=True)],
        "LID",
        "B",
        "turned together",
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
