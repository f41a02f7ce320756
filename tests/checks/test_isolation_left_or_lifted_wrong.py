"""`isolation-left-or-lifted-wrong`: An isolation is still on, or was lifted by the wrong hand."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "isolation-left-or-lifted-wrong"
CUT = e("isolation-applied", isolation="MAINS")

SILENT = {
    "its holder lifted it": [CUT, e("isolation-removed", isolation="MAINS")],
    "the tag was passed on first": [
        CUT,
        e("isolation-transferred", isolation="MAINS", to="Ben"),
        e("isolation-removed", by="Ben", isolation="MAINS"),
    ],
    "what stood open lies outside its reach": [
        e("isolation-described", isolation="MAINS", scope=["BRAKES"]),
        CUT,
        e("opening-opened", opening="FILLER"),
        e("isolation-removed", isolation="MAINS"),
    ],
}
FIRES = {
    "it is still on": ([CUT], "MAINS", "B!", "MAINS is still off, tag of Ana"),
    "somebody else lifted it": (
        [CUT, e("isolation-removed", by="Ben", isolation="MAINS")],
        "MAINS",
        "L",
        "MAINS was lifted by Ben, who did not hold its tag",
    ),
    "a mouth in its reach stood open": (
        [
            e("isolation-described", isolation="MAINS", scope=["PORT"]),
            CUT,
            e("opening-opened", opening="PORT"),
            e("isolation-removed", isolation="MAINS"),
        ],
        "MAINS",
        "L",
        "MAINS was lifted while PORT stood open",
    ),
    "an item in its reach was in": (
        [
            e("isolation-described", isolation="MAINS", scope=["PORT"]),
            CUT,
            e("item-brought-in", item="peg", opening="PORT"),
            e("isolation-removed", isolation="MAINS"),
        ],
        "MAINS",
        "L",
        "peg was still in",
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
