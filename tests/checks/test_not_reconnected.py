"""`not-reconnected`: A connection is apart, or was not tried."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, decided, e, mark, told

CHECK = "not-reconnected"
APART = e("connection-parted", connection="HOSE")

SILENT = {
    "it is on and was pulled": [APART, e("connection-made", connection="HOSE")],
    "it has no clamp": [
        e("connection-described", connection="HOSE", has_clamp=False),
        APART,
        e("connection-made", connection="HOSE", clamp_tight=False),
    ],
    "the lead deferred it": [APART, decided("not-reconnected", "HOSE", "defer", **DEFERRED)],
}
FIRES = {
    "it is apart": ([APART], "HOSE", "B", "HOSE is apart"),
    "it was not pulled": (
        [APART, e("connection-made", connection="HOSE", pulled=False)],
        "HOSE",
        "B",
        "HOSE is on, but not pulled",
    ),
    "its clamp is loose": (
        [
            e("connection-described", connection="HOSE", has_clamp=True),
            APART,
            e("connection-made", connection="HOSE", clamp_tight=False),
        ],
        "HOSE",
        "B",
        "its clamp not tight",
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
