"""`item-not-out`: Something brought in has not come out."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, decided, e, mark, told

CHECK = "item-not-out"
IN = e("item-brought-in", item="towel", opening="INTAKE")

SILENT = {
    "it came out": [IN, e("item-taken-out", item="towel", opening="INTAKE")],
    "it came out and nobody said from where": [IN, e("item-taken-out", item="towel")],
    "it was brought in for the machine at large and came out of an opening": [
        e("item-brought-in", item="rag"),
        e("item-taken-out", item="rag", opening="INTAKE"),
    ],
    "the kit is whole": [
        e("kit-counted", kit="K1", complete=False, missing=["13 mm"]),
        e("kit-counted", kit="K1", complete=True),
    ],
}
FIRES = {
    "one of its name came out of another opening": (
        [IN, e("item-taken-out", item="towel", opening="SUMP")],
        "towel",
        "B!",
        "1 towel is still in INTAKE",
    ),
    "it is still in": ([IN], "towel", "B!", "1 towel is still in INTAKE"),
    "two went in and one came out": (
        [e("item-brought-in", item="rag", n=2), e("item-taken-out", item="rag")],
        "rag",
        "B!",
        "1 rag is still in the machine",
    ),
    "a tool is missing": (
        [e("kit-counted", kit="K1", complete=False, missing=["13 mm"])],
        "K1",
        "B!",
        "K1 was counted short: 13 mm",
    ),
    "no word lifts it": ([IN, decided("item-not-out", "towel", "defer", **DEFERRED)], "towel", "B!", "towel"),
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
