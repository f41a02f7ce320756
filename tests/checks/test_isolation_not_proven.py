"""`isolation-not-proven`: Work began before energy was proven off."""

from __future__ import annotations

import pytest
from tests.builders import Line, decided, e, mark, told

CHECK = "isolation-not-proven"
CUT, PROVEN = e("isolation-applied", isolation="MAINS"), e("isolation-proven", isolation="MAINS")
LIFTED = e("isolation-removed", isolation="MAINS")
WORK = e("connection-parted", connection="HOSE")

SILENT = {
    "it was proven first": [CUT, PROVEN, WORK],
    "the work lies outside its reach": [
        e("isolation-described", isolation="AIR", scope=["BRAKES"]),
        e("isolation-applied", isolation="AIR"),
        WORK,
    ],
    "it was filled with energy back": [
        CUT,
        PROVEN,
        e("fluid-drained", fluid="OIL", litres=3),
        LIFTED,
        e("fluid-filled", fluid="OIL", litres=3),
    ],
    "the lead says what was done instead": [CUT, WORK, decided("isolation-not-proven", "MAINS")],
}
FIRES = {
    "it was not proven": ([CUT, WORK], "MAINS", "L", "Ana worked while MAINS was not proven off"),
    "it was lifted already": ([CUT, PROVEN, LIFTED, WORK], "MAINS", "L", "MAINS"),
    "it was put back together after it was lifted": (
        [CUT, PROVEN, WORK, LIFTED, e("connection-made", connection="HOSE")],
        "MAINS",
        "L",
        "MAINS",
    ),
    "it is known and was never cut off": (
        [e("isolation-described", isolation="MAINS"), WORK],
        "MAINS",
        "L",
        "MAINS",
    ),
    "it happened again after the lead's word": (
        [CUT, WORK, decided("isolation-not-proven", "MAINS"), WORK],
        "MAINS",
        "L",
        "MAINS",
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
