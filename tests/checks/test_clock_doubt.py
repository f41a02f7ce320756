"""`clock-doubt`: A phone's clock was off."""

from __future__ import annotations

import pytest
from tests.builders import Line, decided, e, mark, told

CHECK = "clock-doubt"

SILENT = {
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
