"""`same-hands-on-both`: One person did all of the redundant units."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "same-hands-on-both"
UNITS = e("job-opened", redundant_units=["left", "right"])
BOTH = [UNITS, set_of(1, "L", unit="left"), set_of(1, "R", unit="right")]

SILENT = {
    "two people did them": [
        *BOTH,
        out(1, name="L"),
        out(1, name="R"),
        back(1, name="L"),
        back(1, name="R", by="Ben"),
    ],
    "another person looked at one": [
        *BOTH,
        out(1, name="L"),
        out(1, name="R"),
        back(1, name="L"),
        back(1, name="R"),
        e("second-checked", by="Ben", elements=["R"]),
    ],
    "only one unit was touched": [*BOTH, out(1, name="L"), back(1, name="L")],
    "nothing names units": [
        set_of(1, "L"),
        set_of(1, "R"),
        out(1, name="L"),
        out(1, name="R"),
        back(1, name="L"),
        back(1, name="R"),
    ],
}
FIRES = {
    "the other person found it bad, or looked before it was done": (
        [
            *BOTH,
            e("second-checked", by="Ben", elements=["L"]),
            out(1, name="L"),
            out(1, name="R"),
            back(1, name="L"),
            back(1, name="R"),
            e("second-checked", by="Ben", elements=["R"], result="bad"),
        ],
        "Ana",
        "L",
        "nobody else looked at one",
    ),
    "one did both": (
        [*BOTH, out(1, name="L"), out(1, name="R"), back(1, name="L"), back(1, name="R")],
        "Ana",
        "L",
        "Ana did all of left, right and nobody else looked at one",
    ),
    "one put both covers on": (
        [
            UNITS,
            e("part-described", part="CL", unit="left"),
            e("part-described", part="CR", unit="right"),
            *(e(k, part=p) for k in ("part-removed", "part-fitted") for p in ("CL", "CR")),
        ],
        "Ana",
        "L",
        "Ana did all of left, right",
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
