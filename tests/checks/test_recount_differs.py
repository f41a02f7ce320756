"""`recount-differs`: A hand count differs from the record, or a container was not seen."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "recount-differs"

SILENT = {
    "the count agrees": [set_of(4), out(4), e("container-counted", container="B1", n=4)],
    "the taker saw every bag": [
        set_of(4),
        out(4),
        e("signed-off"),
        e("handover-accepted", by="Ben", containers=["B1"]),
    ],
    "the bag was scanned since": [
        set_of(4),
        out(4),
        e("handover-accepted", by="Ben"),
        e("container-scanned", container="B1"),
    ],
    "the missing piece was declared lost": [
        set_of(4),
        out(4),
        e("container-counted", container="B1", n=3),
        e("thing-lost", loss="L1", what="a bolt", set="LID", source="B1"),
    ],
    "what the taker did not see is empty by now": [
        set_of(4),
        out(4),
        e("handover-accepted", by="Ben"),
        back(4),
    ],
}
FIRES = {
    "three are counted and four logged": (
        [set_of(4), out(4), e("container-counted", container="B1", n=3)],
        "B1",
        "L",
        "B1 was counted as 3 and the record says 4",
    ),
    "a bag was not seen at the handover": (
        [set_of(4), out(4), e("handover-accepted", by="Ben", containers=["T9"])],
        "B1",
        "L",
        "B1 still holds parts and was not seen",
    ),
    "the taker disputes a bag": (
        [set_of(4), out(4), e("handover-accepted", by="Ben", containers=["B1"], disputed=["B1"])],
        "B1",
        "L",
        "B1",
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
