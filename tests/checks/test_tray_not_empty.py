"""`tray-not-empty`: A container of this job still holds parts."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "tray-not-empty"

SILENT = {
    "all went back": [set_of(4), out(4), back(4)],
    "old pieces lie beside new ones of the same type": [set_of(2), out(2), back(2, "NEW")],
    "the set was said to be larger before all of it came out": [
        set_of(6),
        set_of(4),
        out(None),
        back(4),
    ],
    "what is left was moved to scrap": [
        set_of(4),
        out(4),
        back(3),
        e("fasteners-moved", set="LID", n=1, source="B1", to="SCRAP"),
    ],
    "a hand count found none": [set_of(4), out(4), back(3), e("container-counted", container="B1", n=0)],
}
FIRES = {
    "what was lost from it came back and another was fitted": (
        [
            set_of(4),
            out(4),
            e("thing-lost", loss="L1", what="a bolt", source="B1"),
            e("thing-found", find="F1", matches="L1", to="B1"),
            back(4, "STORE", type="M8x1.25x40"),
        ],
        "B1",
        "B",
        "4 pieces are still in B1",
    ),
    "one of eight is left": (
        [set_of(8), out(8), back(7)],
        "B1",
        "B",
        "1 piece is still in B1: 1 x M8x1.25x30 (LID)",
    ),
    "some are in a hand": (
        [set_of(2), out(2, None)],
        "hand of Ana",
        "B",
        "2 pieces are still in hand of Ana",
    ),
    "new ones of another type replace nothing": (
        [set_of(2), out(2), back(2, "NEW", type="M8x1.25x60")],
        "B1",
        "B",
        "2 pieces are still in B1",
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
