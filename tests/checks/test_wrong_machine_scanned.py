"""`wrong-machine-scanned`: The label of another machine was read in this job."""

from __future__ import annotations

import pytest
from tests.builders import MACHINE, Line, e, mark, told

CHECK = "wrong-machine-scanned"

SILENT = {
    "it is the right one": [e("machine-scanned", machine=MACHINE)],
    "the right one was read since": [
        e("machine-scanned", machine="the sister"),
        e("machine-scanned", machine=MACHINE),
    ],
    "nothing was scanned": [],
}
FIRES = {
    "the sister's label was read": (
        [e("machine-scanned", machine="the sister")],
        "the sister",
        "L",
        "The label of the sister was read; this job is on the loader",
    ),
    "the last one read is wrong": (
        [e("machine-scanned", machine=MACHINE), e("machine-scanned", machine="the sister")],
        "the sister",
        "L",
        "the sister",
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
