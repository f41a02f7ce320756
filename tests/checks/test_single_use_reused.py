"""`single-use-reused`: A single-use fastener went back in."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "single-use-reused"
ONCE = set_of(2, single_use=True)

SILENT = {
    "new ones went in": [ONCE, out(2), back(2, "NEW")],
    "the set is no single-use": [set_of(2), out(2), back(2)],
    "the maker allows the re-use": [set_of(2, single_use=True, reuses_allowed=2), out(2), back(2)],
    "new ones were drawn into a bag first": [
        ONCE,
        out(2),
        e("fasteners-moved", set="LID", n=2, source="STORE", to="N1"),
        back(2, "N1"),
    ],
}
FIRES = {
    "the old ones went back": (
        [ONCE, out(2), back(2)],
        "LID",
        "B",
        "LID is single-use and 2 used pieces went back in (1, 2)",
    ),
    "a new one was fitted, undone and fitted": (
        [ONCE, out(2), back(2, "NEW"), e("fasteners-removed", set="LID", holes=[1], to="B2"), back(1, "B2")],
        "LID",
        "B",
        "1 used piece went back in (1)",
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
