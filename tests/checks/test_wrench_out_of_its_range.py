"""`wrench-out-of-its-range`: A value was pulled with a wrench outside its marked range."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "wrench-out-of-its-range"
WRENCH = e("wrench-described", wrench="W2", min_nm=20, max_nm=100)
FITTED = [set_of(2), value_of(), out(2), back(2)]

SILENT = {
    "the value lies in its range": [WRENCH, *FITTED, pulled(22, wrench="W2")],
    "no range is known": [*FITTED, pulled(22, wrench="W7")],
    "it was done by feel": [WRENCH, *FITTED, pulled(10, wrench="W2", method="feel")],
    "the stage was repeated with a fitting wrench": [
        WRENCH,
        *FITTED,
        pulled(10, wrench="W2"),
        pulled(22, wrench="W7"),
    ],
}
FIRES = {
    "the value is below its range": (
        [WRENCH, *FITTED, pulled(10, wrench="W2")],
        "LID",
        "L",
        "10 N·m (stage 1) was pulled with W2, outside its range",
    ),
    "the value is above its range": ([WRENCH, *FITTED, pulled(120, wrench="W2")], "LID", "L", "120 N·m"),
    "only its greatest value is known": (
        [e("wrench-described", wrench="W3", max_nm=200), *FITTED, pulled(22, wrench="W3")],
        "LID",
        "L",
        "W3",
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
