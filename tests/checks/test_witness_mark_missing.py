"""`witness-mark-missing`: A paint stripe is missing."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "witness-mark-missing"
STRIPED = set_of(8, witness_wanted=True)

SILENT = {
    "all have a stripe": [STRIPED, out(8), back(8), e("witness-marked", set="LID", n=8)],
    "no stripe is wanted": [set_of(8), out(8), back(8)],
    "the set was not touched": [STRIPED],
}
FIRES = {
    "seven of eight": (
        [STRIPED, out(8), back(8), e("witness-marked", set="LID", n=7)],
        "LID",
        "I",
        "LID: 7 of 8 have a stripe",
    ),
    "none": ([STRIPED, out(8), back(8)], "LID", "I", "0 of 8"),
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
