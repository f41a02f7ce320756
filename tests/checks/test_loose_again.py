"""`loose-again`: It was found loose again, and why was never written down."""

from __future__ import annotations

import pytest
from tests.builders import MACHINE, Line, e, mark, told

CHECK = "loose-again"
LOOSE = e("fasteners-found-bad", set="BAR", holes=[1], defect="loose")
EARLIER = e("fasteners-found-bad", job="job 2", set="BAR", holes=[1], defect="loose")

SILENT = {
    "it is the first time": [LOOSE],
    "a cause is written": [
        LOOSE,
        e("fasteners-found-bad", set="BAR", holes=[1], defect="loose", cause="bent bar"),
    ],
    "it was on another machine": [
        e("signed-on"),
        e("job-opened", job="job 2", machine="the launch", title="Other"),
        EARLIER,
        LOOSE,
    ],
    "it was broken, not loose": [LOOSE, e("fasteners-found-bad", set="BAR", holes=[1], defect="broken")],
}
FIRES = {
    "twice in this job": ([LOOSE, LOOSE], "BAR", "B", "BAR was found loose 2 times and nobody wrote why"),
    "once in an earlier job on the machine": (
        [e("signed-on"), e("job-opened", job="job 2", machine=MACHINE, title="Other"), EARLIER, LOOSE],
        "BAR",
        "B",
        "BAR was found loose 2 times",
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
