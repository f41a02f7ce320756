"""`loosened-and-left`: Something was loosened in place and is not tight again."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "loosened-and-left"
CLAMP = set_of(2, "CLAMP", loosened_only=True)
LATCHES = set_of(4, "LATCHES", captive=True)

SILENT = {
    "it is tight again": [
        CLAMP,
        e("fasteners-loosened", set="CLAMP"),
        e("fasteners-retightened", set="CLAMP"),
    ],
    "it is meant to stay floating": [
        set_of(1, "TENSIONER", left_floating=True),
        e("fasteners-loosened", set="TENSIONER"),
    ],
    "it is latched": [
        LATCHES,
        e("captive-released", set="LATCHES"),
        e("captive-shut", set="LATCHES", points=4),
    ],
    "two phones logged the same release": [
        LATCHES,
        e("captive-released", set="LATCHES"),
        e("captive-released", set="LATCHES"),
        e("captive-shut", set="LATCHES", points=4),
    ],
    "a confirmed tightening was undone in signed work": [
        set_of(2),
        value_of(),
        out(2),
        back(2),
        pulled(),
        e("fasteners-loosened", set="LID"),
    ],
}
FIRES = {
    "nobody said how many there are": (
        [e("fasteners-loosened", set="CLAMP")],
        "CLAMP",
        "B",
        "CLAMP: 1 fastener is loosened and not tight again (1)",
    ),
    "two and two more were slackened and two are tight again": (
        [
            set_of(6),
            e("fasteners-loosened", set="LID", n=2),
            e("fasteners-loosened", set="LID", n=2),
            e("fasteners-retightened", set="LID", n=2),
        ],
        "LID",
        "B",
        "2 fasteners are loosened",
    ),
    "of a set of unknown size too": (
        [
            e("fasteners-loosened", set="CLAMP", n=2),
            e("fasteners-loosened", set="CLAMP", n=2),
            e("fasteners-retightened", set="CLAMP", n=2),
        ],
        "CLAMP",
        "B",
        "2 fasteners are loosened",
    ),
    "it is loose": (
        [CLAMP, e("fasteners-loosened", set="CLAMP", holes=[2])],
        "CLAMP",
        "B",
        "CLAMP: 1 fastener is loosened and not tight again (2)",
    ),
    "a latch is open": (
        [LATCHES, e("captive-released", set="LATCHES"), e("captive-shut", set="LATCHES", points=3)],
        "LATCHES",
        "B",
        "1 captive point is released and not latched",
    ),
    "below signed work an undone tightening is loose": (
        [
            e("job-opened", level=2),
            set_of(2),
            value_of(),
            out(2),
            back(2),
            pulled(),
            e("fasteners-loosened", set="LID"),
        ],
        "LID",
        "B",
        "2 fasteners are loosened",
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
