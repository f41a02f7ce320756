"""`clock-doubt`: A phone's clock was off."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, pulled, set_of, told, value_of

CHECK = "clock-doubt"

LID = [set_of(2), value_of(), out(2)]
"""Recorded on device 1, minute by minute from 8:01 on."""
SLOW = e("clock-marked", marked_device="phone B", offset_s=-7200)


def on_phone_b(line: Line, at: str) -> Line:
    return line[0], line[1] | {"device": "phone B", "at": at}


SILENT = {
    "two phones, one slow, and each worked on something else": [
        *LID,
        on_phone_b(out(2, name="TOP"), "1 06:04"),
        back(2, after=4),
        e("clock-marked", marked_device="phone B", offset_s=-100, after=9),
    ],
    "the order of two entries is the same with the clock set right": [
        *LID,
        on_phone_b(back(2), "1 08:09"),
        e("clock-marked", marked_device="phone B", offset_s=100, after=9),
    ],
    "it is right": [e("clock-marked", marked_device="phone B", offset_s=20)],
    "it is two minutes off": [e("clock-marked", marked_device="phone B", offset_s=-120)],
    "the lead says which order is right": [
        e("clock-marked", marked_device="phone B", offset_s=-7200, order_flips=True),
        decided("clock-doubt", "phone B"),
    ],
}
FIRES = {
    "it is more than two minutes off": (
        [e("clock-marked", marked_device="phone B", offset_s=121)],
        "phone B",
        "I",
        "The clock of phone B was off by +121 s",
    ),
    "its clock was slow, so that a tightening seems to come before the fitting": (
        [*LID, back(2), on_phone_b(pulled(), "1 06:30"), ("clock-marked", SLOW[1] | {"after": 60})],
        "phone B",
        "L",
        "the order of two entries turns",
    ),
    "an order turns with it": (
        [e("clock-marked", marked_device="phone B", offset_s=-7200, order_flips=True)],
        "phone B",
        "L",
        "the order of two entries turns",
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
