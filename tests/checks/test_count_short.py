"""`count-short`: More came out than went into a container."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, out, set_of, told

CHECK = "count-short"

SILENT = {
    "all are bagged": [set_of(8), out(8, bagged=8)],
    "one was parked on purpose": [
        set_of(8),
        out(7, bagged=7),
        e("fasteners-removed", set="LID", holes=[8], parked=True),
    ],
    "the missing one was found": [
        set_of(8),
        out(8, bagged=7),
        e("thing-found", find="F1", set="LID", to="B1"),
    ],
    "the missing one was declared lost": [
        set_of(8),
        out(8, bagged=7),
        e("thing-lost", loss="L1", what="bolt", set="LID"),
    ],
}
FIRES = {
    "seven of eight are bagged": (
        [set_of(8), out(8, bagged=7)],
        "LID",
        "B",
        "1 piece of LID came out and is in no container",
    ),
    "none is bagged": (
        [set_of(8), out(8, bagged=0)],
        "LID",
        "B",
        "8 pieces of LID came out and are in no container",
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
