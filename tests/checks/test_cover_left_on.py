"""`cover-left-on`: A plug, cap or tape is still on."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "cover-left-on"
CAPPED = [e("opening-opened", opening="HOSES", mouths=10), e("opening-covered", opening="HOSES", n=10)]

SILENT = {
    "as many came off as went on": [*CAPPED, e("opening-uncovered", opening="HOSES", n=10)],
    "nothing was covered": [e("opening-opened", opening="HOSES")],
    "the numbered ones are back": [
        e("opening-opened", opening="P", mouths=2),
        e("opening-covered", opening="P", covers=["c1", "c2"]),
        e("opening-uncovered", opening="P", covers=["c2", "c1"]),
    ],
}
FIRES = {
    "nine of ten came off": (
        [*CAPPED, e("opening-uncovered", opening="HOSES", n=9)],
        "HOSES",
        "B!",
        "1 cover is still on HOSES",
    ),
    "more came off than went on": (
        [*CAPPED, e("opening-uncovered", opening="HOSES", n=11)],
        "HOSES",
        "L",
        "1 cover more came off HOSES",
    ),
    "a numbered one is not back though the count is right": (
        [
            e("opening-opened", opening="P", mouths=2),
            e("opening-covered", opening="P", covers=["c1", "c2"]),
            e("opening-uncovered", opening="P", covers=["c1", "c9"]),
        ],
        "P",
        "B!",
        "1 cover (c2) is still on P",
    ),
    "a probe is still covered": (
        [
            e("opening-described", opening="PROBE", always_open=True),
            e("opening-covered", opening="PROBE", covers=["red 1"]),
        ],
        "PROBE",
        "B!",
        "red 1",
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


def test_speaks_up_while_working_once_it_is_shut() -> None:
    job = told(*CAPPED)
    assert job.live(CHECK) == set()

    job.say("opening-closed", opening="HOSES")
    assert job.live(CHECK) == {"HOSES"}
