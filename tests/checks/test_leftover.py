"""`leftover`: A found piece belongs to nothing yet."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, out, set_of, told

CHECK = "leftover"

SILENT = {
    "it closed a loss of its type": [
        e("thing-lost", loss="L1", what="a nut", type="M8x1.25/nut"),
        e("thing-found", find="F1", matches="L1", type="M8x1.25/nut"),
    ],
    "it closed a loss and its set was named though another job misses one": [
        set_of(2),
        e("thing-lost", job="job 2", loss="L9", what="a bolt", type="M8x1.25x30"),
        out(2, bagged=1),
        e("thing-lost", loss="L1", what="a bolt", set="LID", type="M8x1.25x30"),
        e("thing-found", find="F1", matches="L1", type="M8x1.25x30", to="B1"),
        e("fastener-identified", find="F1", set="LID"),
    ],
    "it was identified to a set": [
        set_of(4),
        out(4, bagged=3),
        e("thing-found", find="F1", type="M8x1.25x30"),
        e("fastener-identified", find="F1", set="LID", to="B1"),
    ],
    "the lead says that it is not ours": [
        e("thing-found", find="F1", what="a rusty screw"),
        e("fastener-identified", find="F1", not_ours=True),
    ],
}
FIRES = {
    "two finds bear one name and one of them closed a loss": (
        [
            e("thing-found", find="F1", what="a nut", type="M6/nut"),
            e("thing-lost", loss="L1", what="a bolt", type="M8x1.25x30"),
            e("thing-found", find="F1", what="a bolt", matches="L1", type="M8x1.25x30"),
        ],
        "F1",
        "L",
        "belongs to no set yet",
    ),
    "it belongs to nothing yet": (
        [e("thing-found", find="F1", what="a long bolt", type="M12x1.75x50")],
        "F1",
        "L",
        "a long bolt was found and belongs to no set yet (M12x1.75x50)",
    ),
    "another job misses a piece like it": (
        [
            e("thing-lost", job="job 2", loss="L9", what="a nut", type="M8x1.25/nut"),
            e("thing-lost", loss="L1", what="a nut", type="M8x1.25/nut"),
            e("thing-found", find="F1", matches="L1", type="M8x1.25/nut"),
        ],
        "F1",
        "L",
        "a piece was found",
    ),
    "it is of another type than the loss": (
        [
            e("thing-lost", loss="L1", what="a nut", type="M8x1.25/nut"),
            e("thing-found", find="F1", matches="L1", type="M10x1.5/nut"),
        ],
        "F1",
        "L",
        "M10x1.5/nut",
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
