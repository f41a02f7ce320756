"""`opening-left-open`: An opening is not shut."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, decided, e, mark, told

CHECK = "opening-left-open"
OPEN = e("opening-opened", opening="PORT")

SILENT = {
    "it is shut": [OPEN, e("looked-inside", opening="PORT"), e("opening-closed", opening="PORT")],
    "it was never open": [e("opening-described", opening="PORT")],
    "the lead deferred a bodywork cavity": [
        e("opening-described", opening="PORT", opening_class="C"),
        OPEN,
        decided("opening-left-open", "PORT", "defer", **DEFERRED),
    ],
}
FIRES = {
    "it stands open": ([OPEN], "PORT", "B!", "PORT stands open (0 of 1 mouths covered)"),
    "covered is not shut": (
        [OPEN, e("opening-covered", opening="PORT")],
        "PORT",
        "B!",
        "1 of 1 mouths covered",
    ),
    "no word lifts it": (
        [OPEN, decided("opening-left-open", "PORT", "defer", **DEFERRED)],
        "PORT",
        "B!",
        "PORT",
    ),
    "a bodywork cavity can be deferred": (
        [e("opening-described", opening="PORT", opening_class="C"), OPEN],
        "PORT",
        "B",
        "PORT",
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
