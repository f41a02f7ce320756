"""`loose-ends`: A photo or a tray hangs in the air."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, out, set_of, told

CHECK = "loose-ends"

SILENT = {
    "the tray held something": [set_of(2), e("container-scanned", container="T1"), out(2, "T1")],
    "the tray was counted": [
        e("container-scanned", container="T1"),
        e("container-counted", container="T1", n=0),
    ],
    "it is a shelf place": [
        e("container-described", container="P1", container_kind="place"),
        e("container-scanned", container="P1"),
    ],
    "a photo of a manual": [e("photo-added", photo="p1", shape="manual")],
    "the photo was rejected": [e("photo-added", photo="p1"), e("photo-rejected", photo="p1", why="blurred")],
    "an entry names the photo": [e("photo-added", photo="p1"), e("part-removed", part="LID", photos=["p1"])],
}
FIRES = {
    "a tray was scanned and never used": (
        [e("container-scanned", container="T12")],
        "T12",
        "L",
        "T12 was scanned and nothing was ever put in it",
    ),
    "a photo has no place": ([e("photo-added", photo="p1")], "p1", "L", "A photo has no place"),
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
