"""`other-job-open-on-the-machine`: Another job is open on this machine, or left something open on it."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, MACHINE, Line, decided, e, mark, told

CHECK = "other-job-open-on-the-machine"
OTHER = [e("signed-on"), e("job-opened", job="job 2", machine=MACHINE, title="Other")]
DEFER = decided("part-not-back-on", "GUARD", "defer", job="job 2", **DEFERRED)

SILENT = {
    "it is on another machine": [
        e("signed-on"),
        e("job-opened", job="job 2", machine="the launch", title="Other"),
    ],
    "it is released": [*OTHER, e("release-signed", job="job 2")],
    "it is linked here": [*OTHER, e("job-linked", other="job 2")],
    "it is washing": [
        e("signed-on"),
        e("job-opened", job="job 2", machine=MACHINE, title="Wash", hands=False),
    ],
    "what it deferred was done here": [
        *OTHER,
        DEFER,
        e("release-signed", job="job 2"),
        e("part-removed", part="GUARD"),
        e("part-fitted", part="GUARD"),
    ],
}
FIRES = {
    "it is open": (OTHER, "job 2", "B", "Job job 2 (Other) is open on the same machine"),
    "it was released with something deferred": (
        [*OTHER, DEFER, e("release-signed", job="job 2")],
        "job 2",
        "B",
        "left GUARD (deferred) on the same machine",
    ),
    "it was released and hands were on it since": (
        [
            *OTHER,
            e("release-signed", job="job 2"),
            e("connection-parted", job="job 2", connection="HOSE"),
        ],
        "job 2",
        "B",
        "left HOSE (undone) on the same machine",
    ),
    "it was cancelled and is worked on again": (
        [
            *OTHER,
            e("job-cancelled", job="job 2", reason="no parts"),
            e("job-reopened", job="job 2", reason="parts came"),
        ],
        "job 2",
        "B",
        "Job job 2 (Other) is open on the same machine",
    ),
    "it was released with a tag on": (
        [*OTHER, e("isolation-applied", job="job 2", isolation="MAINS"), e("release-signed", job="job 2")],
        "job 2",
        "B",
        "the tag on MAINS",
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
