"""`look-alikes-in-one-bag`: Two types that a hand mixes up lie in one container."""

from __future__ import annotations

import pytest
from tests.builders import Line, mark, out, set_of, told

CHECK = "look-alikes-in-one-bag"

SILENT = {
    "one type lies in the bag": [set_of(4), out(4)],
    "a bolt lies with its nut": [
        set_of(2),
        set_of(2, "NUTS", type="M8x1.25x6/nut"),
        out(2),
        out(2, name="NUTS"),
    ],
    "the lengths are far apart": [
        set_of(2),
        set_of(2, "LONG", type="M8x1.25x90"),
        out(2),
        out(2, name="LONG"),
    ],
    "they lie in two bags": [
        set_of(2),
        set_of(2, "LONG", type="M8x1.25x40"),
        out(2),
        out(2, "B2", name="LONG"),
    ],
}
FIRES = {
    "the length is one step off": (
        [set_of(2), set_of(2, "LONG", type="M8x1.25x40"), out(2), out(2, name="LONG")],
        "B1",
        "I",
        "M8x1.25x30 and M8x1.25x40",
    ),
    "the pitch differs": (
        [set_of(2), set_of(2, "FINE", type="M8x1x30"), out(2), out(2, name="FINE")],
        "B1",
        "I",
        "M8x1x30",
    ),
    "an inch thread is almost metric": (
        [set_of(2), set_of(2, "INCH", type="5/16-18"), out(2), out(2, name="INCH")],
        "B1",
        "I",
        "B1 held look-alikes",
    ),
    "the class differs": (
        [
            set_of(2, type="M8x1.25x30 8.8"),
            set_of(2, "HARD", type="M8x1.25x30 10.9"),
            out(2),
            out(2, name="HARD"),
        ],
        "B1",
        "I",
        "10.9",
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
