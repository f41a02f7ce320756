"""`tray-of-another-job`: A container of this job belongs to another job too."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "tray-of-another-job"
OTHER = [
    e("job-opened", job="job 2", machine="the launch", title="Other"),
    e("fasteners-removed", job="job 2", set="GUARD", n=2, to="T7"),
]

SILENT = {
    "the other job emptied it": [
        *OTHER,
        e("container-emptied", job="job 2", container="T7"),
        set_of(4),
        out(4, "T7"),
    ],
    "it was looked empty here": [
        *OTHER,
        set_of(4),
        out(4, "T7"),
        back(4, "T7"),
        e("container-emptied", container="T7"),
    ],
    "it is a place, shared by nature": [
        *OTHER,
        e("container-described", container="T7", container_kind="place"),
        set_of(4),
        out(4, "T7"),
    ],
    "sharing was recorded on purpose": [
        *OTHER,
        e("container-described", container="T7", shared=True),
        set_of(4),
        out(4, "T7"),
    ],
    "the lead accepted it, and it was used again after": [
        *OTHER,
        set_of(4),
        out(4, "T7"),
        decided("tray-of-another-job", "T7"),
        back(4, "T7"),
    ],
}
FIRES = {
    "another open job has parts in it": (
        [*OTHER, set_of(4), out(4, "T7")],
        "T7",
        "L",
        "T7 is used here and belongs to job job 2, which is open",
    ),
    "a closed job never emptied it": (
        [*OTHER, e("release-signed", job="job 2"), set_of(4), out(4, "T7")],
        "T7",
        "L",
        "was never emptied after job job 2",
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
