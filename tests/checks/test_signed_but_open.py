"""`signed-but-open`: A step is said to be done while its elements are open."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "signed-but-open"
DONE = e("step-done", name="refit lid", elements=["LID"])

SILENT = {
    "its elements are done": [set_of(2), out(2), back(2), DONE],
    "it names no elements": [set_of(2), out(2), e("step-done", name="take it off")],
    "the tick was taken back": [set_of(2), out(2), DONE, e("step-started", name="refit lid")],
    "the lead accepts it": [set_of(2), out(2), DONE, decided("signed-but-open", "refit lid")],
}
FIRES = {
    "an element is open": (
        [set_of(2), out(2), DONE],
        "refit lid",
        "L",
        "refit lid is marked done, and LID is open",
    ),
    "nothing was recorded on it": ([set_of(2), DONE], "refit lid", "L", "nothing was recorded on LID"),
    "it was opened again after the lead's word": (
        [set_of(2), out(2), DONE, decided("signed-but-open", "refit lid"), back(2), out(2)],
        "refit lid",
        "L",
        "LID is open",
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
