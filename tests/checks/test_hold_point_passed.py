"""`hold-point-passed`: A hold point was passed without the look."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "hold-point-passed"
HOLD = e("hold-described", hold="BRAKE LOOK", before="WHEEL")
LOOK = e("hold-released", by="Lee", hold="BRAKE LOOK")
OFF, ON = e("part-removed", part="WHEEL"), e("part-fitted", part="WHEEL")

SILENT = {
    "it was looked at first": [HOLD, OFF, LOOK, ON],
    "a late look says how it could still be seen": [
        HOLD,
        OFF,
        ON,
        e("hold-released", by="Lee", hold="BRAKE LOOK", late=True, how_seen="through the spokes"),
    ],
    "it was undone": [HOLD, OFF, ON, OFF],
}
FIRES = {
    "the part went on without the look": (
        [HOLD, OFF, ON],
        "BRAKE LOOK",
        "B",
        "WHEEL was done before BRAKE LOOK was looked at",
    ),
    "a look after it is not called late": ([HOLD, OFF, ON, LOOK], "BRAKE LOOK", "B", "WHEEL"),
    "the test was run without the look": (
        [e("hold-described", hold="H", before="RUN"), e("test-run", test="RUN", passed=True)],
        "H",
        "B",
        "RUN was done before H",
    ),
    "a witness point is a note": (
        [e("hold-described", hold="BRAKE LOOK", before="WHEEL", witness_only=True), OFF, ON],
        "BRAKE LOOK",
        "I",
        "WHEEL",
    ),
    "another role looked": (
        [
            e("person-described", person="Gus", roles=["helper"]),
            e("hold-described", hold="H", before="WHEEL", role_wanted="lead"),
            OFF,
            e("hold-released", by="Gus", hold="H"),
            ON,
        ],
        "H",
        "B",
        "WHEEL",
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
