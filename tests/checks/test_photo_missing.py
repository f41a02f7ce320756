"""`photo-missing`: A photo that was asked for is missing."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "photo-missing"
WANTED = e("connection-described", connection="HOSE", photo_wanted=True)
PART = e("connection-parted", connection="HOSE")

SILENT = {
    "it has one": [WANTED, e("connection-parted", connection="HOSE", photos=["p1"])],
    "it was not touched": [WANTED],
    "one was linked later": [
        WANTED,
        PART,
        e("photo-added", photo="p1"),
        e("photo-linked", photo="p1", element="HOSE"),
    ],
    "at level 1 none is demanded": [e("job-opened", level=1), WANTED, PART],
}
FIRES = {
    "it has none": ([WANTED, PART], "HOSE", "L", "HOSE has no photo, and one was asked for"),
    "its only one was rejected": (
        [
            WANTED,
            PART,
            e("photo-added", photo="p1", element="HOSE"),
            e("photo-rejected", photo="p1", why="blurred"),
        ],
        "HOSE",
        "L",
        "HOSE",
    ),
    "it is critical and can be seen": (
        [set_of(2, critical=True, photo_wanted=True), out(2)],
        "LID",
        "B",
        "LID",
    ),
    "it is critical and covered": (
        [
            set_of(2, critical=True, photo_wanted=True),
            e("access-said", part="COVER", element="LID", need="placed"),
            e("part-removed", part="COVER"),
            out(2),
            back(2),
            e("part-fitted", part="COVER"),
        ],
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
