"""`hole-empty`: A hole that had a fastener has none."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, back, decided, e, mark, out, set_of, told

CHECK = "hole-empty"

SILENT = {
    "all holes are filled": [set_of(6), out(6), back(6)],
    "the set was never touched": [set_of(6)],
    "it was said to be larger before anybody touched it": [set_of(6), set_of(4), out(4), back(4)],
    "one entry names a hole twice": [set_of(4), out(None, holes=[1, 1]), back(None, holes=[1, 1])],
    "it was empty when found": [
        set_of(6),
        out(6),
        e("fasteners-found-bad", set="LID", holes=[6], defect="missing"),
        back(5),
    ],
    "the lead deferred it soundly": [
        set_of(6),
        out(6),
        back(5),
        decided("hole-empty", "LID", "defer", **DEFERRED),
    ],
}
FIRES = {
    "it was empty when found, was filled and came out again": (
        [
            set_of(2),
            e("fasteners-found-bad", set="LID", holes=[2], defect="missing"),
            back(1, "NEW", holes=[2], new=True),
            out(1, holes=[2]),
        ],
        "LID",
        "B",
        "1 hole is empty (2)",
    ),
    "one of six is missing": ([set_of(6), out(6), back(5)], "LID", "B", "LID: 1 hole is empty (6) of 6"),
    "two are only parked": (
        [set_of(6), e("fasteners-removed", set="LID", holes=[2, 3], parked=True)],
        "LID",
        "B",
        "2 fasteners are only parked (2, 3)",
    ),
    "a word alone does not lift it": (
        [set_of(6), out(6), back(5), decided("hole-empty", "LID", "clear")],
        "LID",
        "B",
        "1 hole",
    ),
    "a deferral without a second name does not lift it": (
        [set_of(6), out(6), back(5), decided("hole-empty", "LID", "defer", **DEFERRED | {"second": None})],
        "LID",
        "B",
        "1 hole",
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
