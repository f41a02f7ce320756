"""`touched-by-another-job`: Another job had its hands on it after this one."""

from __future__ import annotations

import pytest
from tests.builders import MACHINE, Line, decided, e, mark, told

CHECK = "touched-by-another-job"
OTHER = [e("signed-on"), e("job-opened", job="job 2", machine=MACHINE, title="Other")]
HERE = e("connection-parted", connection="HOSE")
THERE = e("connection-parted", job="job 2", connection="HOSE")

SILENT = {
    "the other job's work came before": [*OTHER, THERE, HERE],
    "it was looked at again here": [*OTHER, HERE, THERE, HERE],
    "it is on another machine": [
        e("signed-on"),
        e("job-opened", job="job 2", machine="the launch", title="Other"),
        HERE,
        THERE,
    ],
    "the other job touched something else": [
        *OTHER,
        HERE,
        e("connection-parted", job="job 2", connection="LAMP"),
    ],
}
FIRES = {
    "the other job touched it later": (
        [*OTHER, HERE, THERE],
        "HOSE",
        "L",
        "Job job 2 touched HOSE after this job did",
    ),
    "the lead's word was before that": (
        [
            *OTHER,
            HERE,
            THERE,
            decided("touched-by-another-job", "HOSE"),
            e("connection-made", job="job 2", connection="HOSE"),
        ],
        "HOSE",
        "L",
        "HOSE",
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
