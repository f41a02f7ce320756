"""`label-twice`: One label is alive on two things."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "label-twice"
BIND = e("label-bound", label="B40", container="bag 1")

SILENT = {
    "it is on one thing": [BIND],
    "the same thing was scanned twice": [BIND, BIND],
    "one was retired": [
        BIND,
        e("label-retired", label="B40"),
        e("label-bound", label="B40", container="bag 2"),
    ],
}
FIRES = {
    "it is on two things": (
        [BIND, e("label-bound", label="B40", container="bag 2")],
        "B40",
        "L",
        "B40 is on bag 1 and on bag 2",
    ),
    "it is on three things": (
        [
            BIND,
            e("label-bound", label="B40", container="bag 2"),
            e("label-bound", label="B40", container="bag 3"),
        ],
        "B40",
        "L",
        "bag 3",
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
