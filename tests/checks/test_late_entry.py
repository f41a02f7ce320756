"""`late-entry`: Entries were written down afterwards."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest
from tests.builders import Line, back, decided, e, mark, out, set_of, told

CHECK = "late-entry"
LATE = e(
    "part-removed", part="LID", mode="late", happened_at="2026-03-02T07:00:00+00:00", late_reason="no signal"
)
SHOT = e("photo-added", at="1 08:05", photo="tray", container="T1", shape="tray")
SHOT_AT = "2026-03-02T08:05:00+00:00"
SORTED: dict[str, Any] = {
    "photos": ["tray"],
    "mode": "late",
    "happened_at": SHOT_AT,
    "late_reason": "sorted later",
}

SILENT = {
    "a photo of that moment was sorted later": [set_of(2), SHOT, out(2, "T1", **SORTED)],
    "somebody else sorted it after the shift": [
        set_of(2),
        SHOT,
        e("signed-off", at="1 17:00"),
        out(2, "T1", at="2 08:00", by="Ben", **SORTED),
    ],
    "nothing was late": [set_of(2), out(2), back(2)],
    "nothing was recorded at all": [],
    "the lead read them": [LATE, decided("late-entry", "job 1")],
}
FIRES = {
    "the photo is of another moment": (
        [set_of(2), SHOT, out(2, "T1", **SORTED | {"happened_at": "2026-03-02T07:00:00+00:00"})],
        "job 1",
        "I",
        "1 of 4 entries were written down afterwards",
    ),
    "the photo itself came in afterwards": (
        [e("photo-added", photo="tray", **SORTED), out(2, "T1", **SORTED)],
        "job 1",
        "L",
        "2 of 3 entries were written down afterwards",
    ),
    "one of many": (
        [*[e("container-scanned", container="T1")] * 3, LATE],
        "job 1",
        "I",
        "1 of 5 entries were written down afterwards",
    ),
    "more than a quarter": ([LATE], "job 1", "L", "1 of 2 entries were written down afterwards"),
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


def test_who_sorts_another_ones_photo_did_not_work_here_then() -> None:
    job = told(*SILENT["somebody else sorted it after the shift"])

    assert not job.state.late
    assert "Ben" not in job.state.workers
    assert job.findings("handover-gap") == []
    assert [act.time for act in job.state.sets["LID"].removed] == [datetime.fromisoformat(SHOT_AT)]


def test_without_the_photo_the_same_entry_is_late() -> None:
    job = told(set_of(2), out(2, "T1", **SORTED))

    assert len(job.state.late) == 1
