"""`wrong-fastener`: The fastener in a hole is not the one wanted there."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "wrong-fastener"
LONG, SHORT = "M10x1.5x40", "M10x1.5x30"
SET = set_of(4, type=None, types={1: LONG, 2: LONG, 3: SHORT, 4: SHORT})

SILENT = {
    "each hole has its own type": [
        SET,
        out(4),
        back(2, holes=[1, 2], type="M10x1.5x40"),
        back(2, holes=[3, 4], type="M10x1.5x30"),
    ],
    "the length is within measuring error": [set_of(2), out(2), back(2, "NEW", type="M8x1.25x31")],
    "the type wanted is unknown": [
        e("set-described", set="LID", n=2),
        out(2),
        back(2, "NEW", type="M8x1.25x31"),
    ],
    "the lead changed the wanted type": [
        set_of(2),
        out(2),
        back(2, "NEW", type="M8x1.25x60"),
        set_of(2, type="M8x1.25x60", reason="service bulletin"),
    ],
}
FIRES = {
    "long and short are swapped": (
        [SET, out(4), back(2, holes=[1, 3], type="M10x1.5x30"), back(2, holes=[2, 4], type="M10x1.5x40")],
        "LID",
        "B",
        "hole 1 has M10x1.5x30, wanted M10x1.5x40",
    ),
    "the diameter differs": (
        [set_of(1), out(1), back(1, "NEW", type="M6x1x30")],
        "LID",
        "B",
        "hole 1 has M6x1x30, wanted M8x1.25x30",
    ),
    "the pitch differs": ([set_of(1), out(1), back(1, "NEW", type="M8x1x30")], "LID", "B", "M8x1x30"),
    "the class differs": (
        [set_of(1, type="M8x1.25x30 10.9"), out(1), back(1, "NEW", type="M8x1.25x30 8.8")],
        "LID",
        "B",
        "8.8",
    ),
    "a word alone does not lift it": (
        [set_of(1), out(1), back(1, "NEW", type="M6x1x30"), decided(CHECK, "LID")],
        "LID",
        "B",
        "M6",
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
