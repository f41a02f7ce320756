"""`fluid-not-back`: A fluid is not back, or its level was not looked at."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "fluid-not-back"
DRAIN, FILL = e("fluid-drained", fluid="OIL", litres=10), e("fluid-filled", fluid="OIL", litres=10)
CHECK_LEVEL = e("fluid-checked", fluid="OIL")
GRADE = e("fluid-described", fluid="OIL", grade="ISO 32")

SILENT = {
    "it is back and was looked at": [DRAIN, FILL, CHECK_LEVEL],
    "a bleed lost less than a tenth": [DRAIN, e("fluid-filled", fluid="OIL", litres=9), CHECK_LEVEL],
    "no more than the capacity must go in": [
        e("fluid-described", fluid="OIL", capacity_l=5),
        DRAIN,
        e("fluid-filled", fluid="OIL", litres=5),
        CHECK_LEVEL,
    ],
    "it was bled after it was filled": [
        DRAIN,
        FILL,
        e("fluid-drained", fluid="OIL", litres=0.5),
        CHECK_LEVEL,
    ],
    "it was never drained": [e("fluid-described", fluid="OIL", capacity_l=5)],
    "the wrong grade was drained and the right one filled": [
        GRADE,
        DRAIN,
        e("fluid-filled", fluid="OIL", litres=10, grade="ISO 46"),
        DRAIN,
        e("fluid-filled", fluid="OIL", litres=10, grade="ISO 32"),
        CHECK_LEVEL,
    ],
}
FIRES = {
    "some is missing": (
        [e("fluid-drained", fluid="OIL", litres=38), e("fluid-filled", fluid="OIL", litres=30)],
        "OIL",
        "B!",
        "DO NOT START: 38 L of OIL went out, 30 L came in",
    ),
    "nothing came in": ([DRAIN], "OIL", "B!", "0 L came in"),
    "it was drained again": (
        [DRAIN, FILL, CHECK_LEVEL, DRAIN],
        "OIL",
        "B!",
        "10 L of OIL went out, 0 L came in",
    ),
    "it was drained again and the capacity hides the sum": (
        [e("fluid-described", fluid="OIL", capacity_l=10), DRAIN, FILL, CHECK_LEVEL, DRAIN],
        "OIL",
        "B!",
        "0 L came in",
    ),
    "it is another grade": (
        [GRADE, DRAIN, e("fluid-filled", fluid="OIL", litres=10, grade="ISO 46")],
        "OIL",
        "B!",
        "another grade",
    ),
    "nobody looked at the level": ([DRAIN, FILL], "OIL", "L", "was not looked at after the last fill"),
    "the look was before the last fill": (
        [DRAIN, FILL, CHECK_LEVEL, FILL],
        "OIL",
        "L",
        "was not looked at after the last fill",
    ),
    "it leaks": (
        [DRAIN, FILL, e("fluid-checked", fluid="OIL", leaks=True)],
        "OIL",
        "L",
        "was looked at and was not right",
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
