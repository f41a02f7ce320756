"""`closed-over-an-item`: An opening was shut with something in it."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "closed-over-an-item"
OPEN, SHUT = e("opening-opened", opening="INTAKE"), e("opening-closed", opening="INTAKE")
IN = e("item-brought-in", item="towel", opening="INTAKE")

SILENT = {
    "it came out before": [OPEN, IN, e("item-taken-out", item="towel", opening="INTAKE"), SHUT],
    "the item is in the zone and not in the opening": [OPEN, e("item-brought-in", item="peg"), SHUT],
    "it was opened again and taken out": [OPEN, IN, SHUT, OPEN, e("item-taken-out", item="towel"), SHUT],
}
FIRES = {
    "it was shut over a towel": ([OPEN, IN, SHUT], "INTAKE", "B!", "INTAKE was shut over towel"),
    "it was shut over a lost nut": (
        [OPEN, e("thing-lost", loss="L1", what="a nut", opening="INTAKE"), SHUT],
        "INTAKE",
        "B!",
        "INTAKE was shut over a nut",
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
