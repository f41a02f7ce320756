"""`new-for-old`: Old pieces are kept beside the new ones that replaced them."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "new-for-old"

SILENT = {
    "nothing was replaced": [set_of(2), out(2), back(2)],
    "the old ones are scrapped": [
        set_of(2),
        out(2),
        back(2, "NEW"),
        e("fasteners-moved", set="LID", n=2, source="B1", to="SCRAP"),
    ],
    "the lead accepts that they are kept": [set_of(2), out(2), back(2, "NEW"), decided("new-for-old", "B1")],
}
FIRES = {
    "old ones are kept beside new ones": (
        [set_of(2), out(2), back(2, "NEW")],
        "B1",
        "L",
        "2 old pieces of LID are kept in B1",
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
