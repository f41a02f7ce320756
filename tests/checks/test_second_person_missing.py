"""`second-person-missing`: Nobody but the doer has looked at a critical set."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, pulled, set_of, told, value_of

CHECK = "second-person-missing"
DONE = [set_of(2, critical=True), out(2), back(2)]

SILENT = {
    "somebody else looked": [*DONE, e("second-checked", by="Ben", elements=["LID"])],
    "the set wants nobody": [set_of(2), out(2), back(2)],
    "the set was not touched": [set_of(2, critical=True)],
    "the lead accepts a look by the same person in a one-person shop": [
        set_of(2, second_person=True),
        out(2),
        back(2),
        e("second-checked", elements=["LID"], how="re-look-same-person"),
        decided("second-person-missing", "LID"),
    ],
}
FIRES = {
    "nobody looked": (DONE, "LID", "B", "LID was tightened by Ana and no second person has looked since"),
    "the doer looked": ([*DONE, e("second-checked", elements=["LID"])], "LID", "B", "Ana"),
    "the look is older than the last tightening": (
        [
            set_of(2, critical=True),
            value_of(),
            out(2),
            back(2),
            pulled(),
            e("second-checked", by="Ben", elements=["LID"]),
            pulled(),
        ],
        "LID",
        "B",
        "LID",
    ),
    "the last look was bad": (
        [
            *DONE,
            e("second-checked", by="Ben", elements=["LID"]),
            e("second-checked", by="Cho", elements=["LID"], result="bad"),
        ],
        "LID",
        "B",
        "LID",
    ),
    "a set that only wants a second person": (
        [set_of(2, second_person=True), out(2), back(2)],
        "LID",
        "L",
        "LID",
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
