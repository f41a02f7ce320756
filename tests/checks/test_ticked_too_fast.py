"""`ticked-too-fast`: Fasteners were confirmed faster than hands can be."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, mark, out, pulled, set_of, told, value_of

CHECK = "ticked-too-fast"
FITTED = [set_of(2), value_of(), out(2), back(2)]

SILENT = {
    "hands could do it": [*FITTED, pulled(holes=[1]), pulled(holes=[2])],
    "one entry for the whole pattern": [*FITTED, pulled()],
    "they came in one batch": [*FITTED, pulled(holes=[1]), pulled(holes=[2], after=0)],
    "it was written down afterwards": [
        *FITTED,
        pulled(holes=[1]),
        pulled(holes=[2], after=0.01, mode="late"),
    ],
}
FIRES = {
    "twelve in nine seconds": (
        [
            set_of(12),
            value_of(),
            out(12),
            back(12),
            pulled(holes=[1]),
            pulled(holes=list(range(2, 13)), after=0.15),
        ],
        "LID",
        "L",
        "11 fasteners confirmed within 9 s",
    ),
    "one within a second": (
        [*FITTED, pulled(holes=[1]), pulled(holes=[2], after=1 / 60)],
        "LID",
        "L",
        "1 fastener confirmed within 1 s",
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
