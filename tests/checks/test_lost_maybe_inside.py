"""`lost-maybe-inside`: A piece is lost, and may be inside the machine."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, back, decided, e, mark, out, set_of, told

CHECK = "lost-maybe-inside"
NUT = e("thing-lost", loss="L1", what="a nut", type="M8x1.25/nut")
FOUND = e("thing-found", find="F1", matches="L1", type="M8x1.25/nut")
PORT = e("opening-opened", opening="PORT")
EARLY = "2026-03-02T07:00:00+00:00"

SILENT = {
    "a find of the same type closed it": [NUT, FOUND],
    "two people wrote it off and no mouth was bare": [
        NUT,
        e("loss-written-off", loss="L1", by="Lee", reason="swept, magnet", second="Ida"),
    ],
    "what was moved to the lost ones was fitted from there": [
        set_of(2),
        out(2),
        e("fasteners-moved", set="LID", n=1, source="B1", to="LOST"),
        back(1),
        back(1, source="LOST"),
    ],
    "the lead accepts a loss where nothing was bare": [NUT, decided(CHECK, "L1")],
}
FIRES = {
    "no mouth was bare": ([NUT], "L1", "L", "a nut is lost; no class A mouth was bare"),
    "a class A mouth is bare": ([PORT, NUT], "L1", "B!", "a nut is lost and may be inside: PORT"),
    "a mouth was bare since it was last seen": (
        [
            PORT,
            e("opening-covered", opening="PORT"),
            e("thing-lost", loss="L1", what="a nut", last_seen=EARLY),
        ],
        "L1",
        "B!",
        "PORT",
    ),
    "only three of four mouths were covered": (
        [
            e("opening-described", opening="PORTS", mouths=4),
            e("opening-opened", opening="PORTS"),
            e("opening-covered", opening="PORTS", n=3),
            NUT,
        ],
        "L1",
        "B!",
        "PORTS",
    ),
    "it fell beside an opening": (
        [e("thing-lost", loss="L1", what="a nut", opening="SUMP")],
        "L1",
        "B!",
        "SUMP",
    ),
    "writing it off does not do while a mouth was bare": (
        [PORT, NUT, e("loss-written-off", loss="L1", by="Lee", reason="swept", second="Ida")],
        "L1",
        "B!",
        "PORT",
    ),
    "no word lifts it while a mouth was bare": (
        [PORT, NUT, decided(CHECK, "L1", "defer", **DEFERRED)],
        "L1",
        "B!",
        "PORT",
    ),
    "writing it off alone does not do": (
        [NUT, e("loss-written-off", loss="L1", by="Lee", reason="swept", second="Lee")],
        "L1",
        "L",
        "a nut",
    ),
    "a find of another type does not close it": (
        [NUT, e("thing-found", find="F1", matches="L1", type="M10x1.5/nut")],
        "L1",
        "L",
        "a nut",
    ),
    "one of three was found": (
        [e("thing-lost", loss="L1", what="nuts", n=3, type="M8x1.25/nut"), FOUND],
        "L1",
        "L",
        "nuts",
    ),
    "two phones gave one name to a loss and one of the two was found": (
        [NUT, NUT, FOUND],
        "L1",
        "L",
        "a nut is lost",
    ),
    "a piece of no set went nobody knows where": (
        [
            e("fasteners-moved", n=2, source="NEW", to="B1", type="M8x1.25x30"),
            e("fasteners-moved", n=2, source="B1", to="?"),
        ],
        "M8x1.25x30",
        "L",
        "M8x1.25x30 is lost",
    ),
    "another job misses a piece like it": (
        [
            e("job-opened", job="job 2", machine="the launch", title="Other"),
            NUT,
            e("thing-lost", job="job 2", loss="L9", what="a nut", type="M8x1.25/nut"),
            FOUND,
        ],
        "L1",
        "L",
        "job job 2 misses one too",
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
