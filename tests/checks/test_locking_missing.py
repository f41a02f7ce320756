"""`locking-missing`: Locking pieces are missing."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "locking-missing"
PINNED = set_of(4, locking="split-pin")
PINS = e("locking-fitted", set="LID", n=4, locking="split-pin")
AGAIN = [e("fasteners-removed", set="LID", holes=[2], to="B1"), back(1)]

SILENT = {
    "every pin is in": [PINNED, out(4), back(4), PINS],
    "the design locks itself": [set_of(4, locking="own"), out(4), back(4)],
    "thread-locker was put on": [
        set_of(4, locking="thread-locker"),
        out(4),
        e("compound-applied", element="LID", product="medium"),
        back(4),
    ],
    "the set was not touched": [PINNED],
    "an undone one got a new pin": [
        PINNED,
        out(4),
        back(4),
        PINS,
        *AGAIN,
        e("locking-fitted", set="LID", n=1, locking="split-pin", holes=[2]),
    ],
}
FIRES = {
    "one that was only parked was pulled and has no pin": (
        [
            PINNED,
            value_of(),
            e("fasteners-removed", set="LID", holes=[2], parked=True),
            pulled(22, holes=[2]),
        ],
        "LID",
        "B",
        "missing on 1 of 4",
    ),
    "two of four have a pin": (
        [PINNED, out(4), back(4), e("locking-fitted", set="LID", n=2, locking="split-pin")],
        "LID",
        "B",
        "LID: split-pin is missing on 2 of 4",
    ),
    "thread-locker is missing": (
        [set_of(4, locking="thread-locker"), out(4), back(4)],
        "LID",
        "B",
        "thread-locker is missing on 4",
    ),
    "the compound is older than the undoing": (
        [
            set_of(4, locking="thread-locker"),
            e("compound-applied", element="LID", product="medium"),
            out(4),
            back(4),
        ],
        "LID",
        "B",
        "thread-locker",
    ),
    "one came out again and its pin is spent": (
        [PINNED, out(4), back(4), PINS, *AGAIN],
        "LID",
        "B",
        "missing on 1 of 4",
    ),
    "a pin on one hole does not lock another": (
        [
            set_of(2, locking="wire"),
            out(2),
            back(2),
            e("locking-fitted", set="LID", n=1, locking="wire", holes=[1]),
        ],
        "LID",
        "B",
        "missing on 1 of 2",
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
