"""`torque-out-of-range`: The torque or angle pulled is not the one asked for."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "torque-out-of-range"
FITTED = [set_of(2), value_of(), out(2), back(2)]

SILENT = {
    # AC 43.13-1B 7-40: drag 7 is added to the wanted 20 to 25.
    "the drag of a self-locking nut is added": [
        set_of(2),
        value_of(prevailing_nm=7),
        out(2),
        back(2),
        pulled(29.5),
    ],
    "it is in range": [*FITTED, pulled(22)],
    "it is off by rounding": [*FITTED, pulled(25.04)],
    "it was done again": [*FITTED, pulled(30), pulled(22)],
    "the angle is within five degrees": [
        set_of(2),
        value_of(None, None, angle_deg=90),
        out(2),
        back(2),
        pulled(None, angle_deg=86),
    ],
}
FIRES = {
    "it is too low": (
        [*FITTED, pulled(19)],
        "LID",
        "B",
        "LID: 19 N·m was pulled where 20 to 25 N·m is asked (hole 1, 2)",
    ),
    "it is too high": ([*FITTED, pulled(26)], "LID", "B", "26 N·m"),
    "a newer value is known": (
        [*FITTED, pulled(22), e("spec-superseded", set="LID", by_source="bulletin 7", min_nm=30, max_nm=32)],
        "LID",
        "B",
        "30 to 32 N·m",
    ),
    "the drag of a self-locking nut was left out": (
        [set_of(2), value_of(prevailing_nm=7), out(2), back(2), pulled(22)],
        "LID",
        "B",
        "27 to 32 N·m",
    ),
    "the angle is off": (
        [set_of(2), value_of(None, None, angle_deg=90), out(2), back(2), pulled(None, angle_deg=80)],
        "LID",
        "B",
        "80 degrees was pulled where 90 degrees",
    ),
    "the angle was not recorded": (
        [set_of(2), value_of(angle_deg=90), out(2), back(2), pulled(22)],
        "LID",
        "B",
        "22 N·m was pulled where 20 to 25 N·m and 90 degrees",
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
