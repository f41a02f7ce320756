"""`setting-not-restored`: A setting was moved and is not back."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "setting-not-restored"
FOUND = e("setting-found", setting="RELIEF", value=12.5)

SILENT = {
    "it was looked at again and stands as it was set": [
        FOUND,
        e("setting-set", setting="RELIEF", value=14, manual_page="p. 31"),
        e("setting-found", setting="RELIEF", value=14),
    ],
    "it is as found": [FOUND, e("setting-set", setting="RELIEF", value=12.5)],
    "it is within its tolerance": [
        e("setting-described", setting="RELIEF", tolerance=0.5),
        FOUND,
        e("setting-set", setting="RELIEF", value=13),
    ],
    "the manual gives the new value": [
        FOUND,
        e("setting-set", setting="RELIEF", value=14, manual_page="p. 31"),
    ],
}
FIRES = {
    "it was found elsewhere after it had been set back": (
        [
            FOUND,
            e("setting-set", setting="RELIEF", value=14, manual_page="p. 31"),
            e("setting-found", setting="RELIEF", value=16),
        ],
        "RELIEF",
        "L",
        "it was left at 16",
    ),
    "it was left elsewhere": (
        [FOUND, e("setting-set", setting="RELIEF", value=14)],
        "RELIEF",
        "L",
        "RELIEF was found at 12.5 and it was left at 14",
    ),
    "how it was left is not recorded": ([FOUND], "RELIEF", "L", "how it was left is not recorded"),
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
