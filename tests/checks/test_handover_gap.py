"""`handover-gap`: Work changed hands without a handover, or an interruption was never closed."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "handover-gap"
ANA = [e("signed-on"), e("connection-parted", connection="HOSE")]
TOUCH = e("connection-made", by="Ben", connection="HOSE")

SILENT = {
    "the taker accepted": [*ANA, e("signed-off"), e("handover-accepted", by="Ben"), TOUCH],
    "the same person next day": [
        *ANA,
        e("signed-off"),
        e("connection-made", at="2 08:00", connection="HOSE"),
    ],
    "two are signed on together": [e("signed-on", by="Ben"), *ANA, e("signed-off"), TOUCH],
    "the interruption was looked over": [
        e("work-interrupted", element="LID"),
        e("work-resumed", element="LID", rechecked=True),
    ],
    "the lead signed off somebody who comes back": [
        *ANA,
        e("signed-off", by="Lee", person="Ana"),
        e("connection-made", connection="HOSE"),
    ],
}
FIRES = {
    "a new person works after the shift": (
        [*ANA, e("signed-off"), TOUCH],
        "Ben",
        "L",
        "Ben began to work here without taking over",
    ),
    "the last holder was silent for hours": (
        [*ANA, ("connection-made", {"connection": "HOSE", "by": "Ben", "after": 150})],
        "Ben",
        "L",
        "Ben",
    ),
    "nobody went back after a call": (
        [e("work-interrupted", element="LID")],
        "LID",
        "L",
        "Ana was called away from LID",
    ),
    "he came back and did not look": (
        [e("work-interrupted", element="LID"), e("work-resumed", element="LID")],
        "LID",
        "L",
        "nobody went back and looked it over",
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
