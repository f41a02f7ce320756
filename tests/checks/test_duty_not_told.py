"""`duty-not-told`: Something is owed after release and nobody was told, or it is overdue."""

from __future__ import annotations

import pytest
from tests.builders import Line, decided, e, mark, told

CHECK = "duty-not-told"
DUTY = e("duty-set", duty="wheel nuts", what="tighten again", limit="50 km")

SILENT = {
    "the driver was told": [
        e("duty-set", duty="wheel nuts", what="tighten again", limit="50 km", told_to="the driver")
    ],
    "it is done": [DUTY, e("duty-done", duty="wheel nuts")],
    "the lead accepts it": [DUTY, decided("duty-not-told", "wheel nuts")],
}
FIRES = {
    "nobody was told": ([DUTY], "wheel nuts", "L", "wheel nuts is owed after release, and nobody was told"),
    "it is overdue": (
        [
            e(
                "duty-set",
                duty="wheel nuts",
                what="tighten again",
                limit="50 km",
                told_to="the driver",
                due="2026-03-05T00:00:00+00:00",
            ),
            e("signed-on", at="9 08:00"),
        ],
        "wheel nuts",
        "L",
        "wheel nuts is overdue",
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
