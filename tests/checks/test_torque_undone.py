"""`torque-undone`: A tightening that was done has been undone."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "torque-undone"
PULLED = [set_of(4, gasketed=True), value_of(), out(4), back(4), pulled()]
LOOSEN = e("fasteners-loosened", set="LID", holes=[1])

SILENT = {
    "nothing was loosened": PULLED,
    "the sequence was repeated": [*PULLED, LOOSEN, pulled()],
    "each fastener stands on its own": [
        set_of(4, gasketed=True, each_alone=True),
        *PULLED[1:],
        LOOSEN,
        pulled(holes=[1]),
    ],
    "the loosened one was pulled and the joint has no seal": [
        set_of(4),
        *PULLED[1:],
        LOOSEN,
        pulled(holes=[1]),
    ],
}
FIRES = {
    "one is slackened again": (
        [set_of(4), *PULLED[1:], LOOSEN],
        "LID",
        "B",
        "the tightening of hole 1 was undone",
    ),
    "one of a gasketed joint is slackened": ([*PULLED, LOOSEN], "LID", "B", "hole 1, 2, 3, 4"),
    "one of a gasketed joint comes out": (
        [*PULLED, e("fasteners-removed", set="LID", holes=[1], to="B1"), back(1), pulled(holes=[1])],
        "LID",
        "B",
        "hole 2, 3, 4",
    ),
    "a check made one of a staged joint turn": (
        [
            set_of(4),
            value_of(stage_count=2),
            out(4),
            back(4),
            pulled(10, stage=1),
            pulled(stage=2),
            pulled(holes=[1], stage=2, moved=True),
        ],
        "LID",
        "B",
        "hole 1, 2, 3, 4",
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
