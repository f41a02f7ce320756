"""`wrench-not-in-calibration`: A torque was pulled with a wrench that was not in calibration."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, pulled, set_of, told, value_of

CHECK = "wrench-not-in-calibration"
BEFORE, AFTER = "2026-03-01T00:00:00+00:00", "2026-12-01T00:00:00+00:00"
PULLED = [set_of(2), value_of(), out(2), back(2), pulled(wrench="W2")]
SUSPECT = e("wrench-suspected", wrench="W2", since=BEFORE, why="failed its calibration")

SILENT = {
    "it is in calibration": [e("wrench-described", wrench="W2", due=AFTER), *PULLED],
    "no due date is known": [*PULLED],
    "a good wrench repeated it": [
        e("wrench-described", wrench="W2", due=BEFORE),
        *PULLED,
        pulled(wrench="W3"),
    ],
    "the lead says why it may stay": [
        e("wrench-described", wrench="W2", due=BEFORE),
        *PULLED,
        decided("wrench-not-in-calibration", "LID"),
    ],
    "it passed its calibration after the doubt and before the pull": [
        SUSPECT,
        e("wrench-calibrated", wrench="W2", calibrated_on="2026-03-02"),
        *PULLED,
    ],
    "its calibration of before was written down after the pull": [
        e("wrench-described", wrench="W2", due=BEFORE),
        *PULLED,
        e("wrench-calibrated", wrench="W2", calibrated_on="2026-02-27", due=AFTER),
    ],
    "it fell after the last pull": [*PULLED, e("wrench-suspected", wrench="W2", why="dropped")],
}
FIRES = {
    "it was overdue": (
        [e("wrench-described", wrench="W2", due=BEFORE), *PULLED],
        "LID",
        "L",
        "LID was tightened with W2, whose calibration was overdue",
    ),
    "it failed later": ([*PULLED, SUSPECT], "LID", "L", "in doubt since its last good day"),
    "it failed, was mended and passed afterwards": (
        [*PULLED, SUSPECT, e("wrench-calibrated", wrench="W2", calibrated_on="2026-03-02", due=AFTER)],
        "LID",
        "L",
        "in doubt since its last good day",
    ),
    "it was overdue and calibrated afterwards": (
        [
            e("wrench-described", wrench="W2", due=BEFORE),
            *PULLED,
            e("wrench-calibrated", wrench="W2", calibrated_on="2026-03-02", due=AFTER),
        ],
        "LID",
        "L",
        "overdue",
    ),
    "it failed in another job": (
        [
            *PULLED,
            e("job-opened", job="job 2", machine="the launch", title="Other"),
            ("wrench-suspected", SUSPECT[1] | {"job": "job 2"}),
        ],
        "LID",
        "L",
        "in doubt",
    ),
    "another job knows that it was overdue": (
        [e("signed-on"), e("wrench-described", job="job 2", wrench="W2", due=BEFORE), *PULLED],
        "LID",
        "L",
        "overdue",
    ),
    "a word from before it failed does not cover it": (
        [
            e("wrench-described", wrench="W2", due=BEFORE),
            *PULLED,
            decided("wrench-not-in-calibration", "LID"),
            SUSPECT,
        ],
        "LID",
        "L",
        "in doubt",
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
