"""`part-not-back-on`: A part that came off is not on."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "part-not-back-on"

SILENT = {
    "it is on again": [e("part-removed", part="SHIELD"), e("part-fitted", part="SHIELD")],
    "it was never off": [e("part-described", part="SHIELD")],
}
FIRES = {
    "it lies on the shelf": (
        [e("part-removed", part="SHIELD", place="shelf 3")],
        "SHIELD",
        "B",
        "SHIELD is not back on; it lies at shelf 3",
    ),
    "it came off again": (
        [e("part-removed", part="SHIELD"), e("part-fitted", part="SHIELD"), e("part-removed", part="SHIELD")],
        "SHIELD",
        "B",
        "SHIELD",
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
