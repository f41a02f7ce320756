"""`found-bad-not-decided`: Something was bad when found, and nobody said what to do."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "found-bad-not-decided"
BROKEN = e("fasteners-found-bad", set="LID", holes=[2], defect="broken")

SILENT = {
    "nothing was bad": [set_of(4)],
    "the lead decided it": [set_of(4), BROKEN, decided("found-bad-not-decided", "LID", "accept")],
    "a critical one was replaced": [set_of(4, critical=True), BROKEN, out(4), back(4, "NEW")],
}
FIRES = {
    "a stud was broken before we came": (
        [set_of(4), BROKEN],
        "LID",
        "L",
        "LID was found broken (hole 2) and nothing is decided",
    ),
    "the set is critical": ([set_of(4, critical=True), BROKEN], "LID", "B", "broken"),
    "a word does not clear a critical one": (
        [set_of(4, critical=True), BROKEN, decided("found-bad-not-decided", "LID")],
        "LID",
        "B",
        "broken",
    ),
    "a critical one went back in": (
        [set_of(4, critical=True), BROKEN, out(4), back(4)],
        "LID",
        "B",
        "broken",
    ),
    "why it was loose is not said": (
        [set_of(4), e("fasteners-found-bad", set="LID", holes=[1], defect="loose")],
        "LID",
        "L",
        "Why it was loose is not written down",
    ),
    "a loose one was replaced and nobody asked why": (
        [
            set_of(4, critical=True),
            e("fasteners-found-bad", set="LID", holes=[1], defect="loose"),
            out(4),
            back(4, "NEW"),
        ],
        "LID",
        "B",
        "Why it was loose",
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
