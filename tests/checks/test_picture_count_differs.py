"""`picture-count-differs`: The picture shows another number than the record."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, out, set_of, told

CHECK = "picture-count-differs"

SILENT = {
    "the picture agrees": [set_of(4), out(4), e("photo-counted", container="B1", n=4)],
    "the reading's interval holds the logged number": [
        set_of(4),
        out(4),
        e("photo-counted", container="B1", n=3, low=3, high=5),
    ],
    "a hand count settled it": [
        set_of(4),
        out(4),
        e("photo-counted", container="B1", n=3),
        e("container-counted", container="B1", n=4),
    ],
    "a new picture settled it": [
        set_of(4),
        out(4),
        e("photo-counted", container="B1", n=3),
        e("photo-counted", container="B1", n=4),
    ],
}
FIRES = {
    "the picture is sure": (
        [set_of(12), out(12), e("photo-counted", container="B1", n=11, confidence=0.8)],
        "B1",
        "L",
        "The picture of B1 shows 11, the record says 12",
    ),
    "the picture is unsure": (
        [set_of(12), out(12), e("photo-counted", container="B1", n=11, confidence=0.79)],
        "B1",
        "I",
        "shows 11",
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
