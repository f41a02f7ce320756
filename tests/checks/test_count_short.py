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
    "a washer that nobody counted is lost beside it": (
        [
            set_of(4),
            out(4, bagged=3),
            e("thing-lost", loss="L1", what="a washer", type="M6/washer"),
            e("thing-found", find="F1", matches="L1", type="M6/washer"),
        ],
        "LID",
        "B",
        "1 piece of LID came out and is in no container",
    ),
    "a parked piece made way for another": (
        [
            set_of(2),
            e("fasteners-removed", set="LID", holes=[1], parked=True),
            e("fasteners-fitted", set="LID", holes=[1], source="NEW", new=True),
        ],
        "LID",
        "B",
        "1 piece of LID came out and is in no container",
    ),
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
