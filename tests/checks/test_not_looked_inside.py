"""`not-looked-inside`: An opening was opened dirty, or shut without a look."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "not-looked-inside"
OPEN, SHUT = e("opening-opened", opening="PORT"), e("opening-closed", opening="PORT")
CLASS_B = [e("opening-described", opening="PORT", opening_class="B"), OPEN]
CLEAN_FIRST = e("opening-described", opening="PORT", clean_first=True)

SILENT = {
    "somebody looked": [OPEN, e("looked-inside", opening="PORT"), SHUT],
    "a hose end was joined within two minutes": [
        *CLASS_B,
        e("opening-covered", opening="PORT"),
        e("opening-uncovered", opening="PORT"),
        SHUT,
    ],
    "a bodywork cavity": [e("opening-described", opening="PORT", opening_class="C"), OPEN, SHUT],
    "a scope looked in afterwards": [OPEN, SHUT, e("looked-inside", opening="PORT", how="scope")],
    "it was cleaned before it was opened": [
        CLEAN_FIRST,
        e("cleaned", opening="PORT"),
        OPEN,
        e("looked-inside", opening="PORT"),
        SHUT,
    ],
}
FIRES = {
    "class A was shut unseen": ([OPEN, SHUT], "PORT", "B", "PORT was shut and nobody looked inside"),
    "the look was before the last cover came off": (
        [
            OPEN,
            e("opening-covered", opening="PORT"),
            e("looked-inside", opening="PORT"),
            e("opening-uncovered", opening="PORT"),
            SHUT,
        ],
        "PORT",
        "B",
        "PORT",
    ),
    "the look was not clear": (
        [OPEN, e("looked-inside", opening="PORT", clear=False), SHUT],
        "PORT",
        "B",
        "PORT",
    ),
    "a later look was not clear": (
        [OPEN, e("looked-inside", opening="PORT"), e("looked-inside", opening="PORT", clear=False), SHUT],
        "PORT",
        "B",
        "PORT",
    ),
    "a scope saw something in it after it was shut": (
        [
            OPEN,
            e("looked-inside", opening="PORT"),
            SHUT,
            e("looked-inside", opening="PORT", how="scope", clear=False),
        ],
        "PORT",
        "B",
        "PORT",
    ),
    "class B was shut unseen": (
        [*CLASS_B, OPEN, ("opening-closed", {"opening": "PORT", "after": 30})],
        "PORT",
        "L",
        "PORT",
    ),
    "it was opened dirty": (
        [CLEAN_FIRST, OPEN, e("looked-inside", opening="PORT"), SHUT],
        "PORT",
        "L",
        "PORT was opened without cleaning",
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
