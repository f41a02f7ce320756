"""`old-seal-or-consumable`: A seal or other renewal was not renewed, or the old one was not seen off."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "old-seal-or-consumable"
NEED = e("renewal-needed", renewal="GASKET", under="PUMP")
NEW = e("renewal-fitted", renewal="GASKET")
OFF, ON = e("part-removed", part="PUMP"), e("part-fitted", part="PUMP")

SILENT = {
    "it was renewed": [NEED, NEW],
    "the maker allows the re-use": [e("renewal-needed", renewal="GASKET", reuse_allowed=True)],
    "the old one was seen off": [
        e("renewal-needed", renewal="GASKET", see_old_off=True),
        e("renewal-seen-off", renewal="GASKET"),
        NEW,
    ],
    "it was renewed again after the undo": [NEED, NEW, ON, OFF, NEW, ON],
}
FIRES = {
    "it was not renewed": ([NEED], "GASKET", "B", "GASKET: 0 of 1 renewed"),
    "the part came off again": ([NEED, OFF, NEW, ON, OFF], "GASKET", "B", "GASKET: 0 of 1 renewed"),
    "the set it belongs to was undone": (
        [
            set_of(2),
            e("renewal-needed", renewal="PINS", n=2, set="LID"),
            out(2),
            back(2),
            e("renewal-fitted", renewal="PINS", n=2),
            e("fasteners-loosened", set="LID", holes=[1]),
        ],
        "PINS",
        "B",
        "PINS: 1 of 2 renewed",
    ),
    "three of four were seen off": (
        [
            e("renewal-needed", renewal="SEALS", n=4, see_old_off=True),
            e("renewal-fitted", renewal="SEALS", n=4),
            e("renewal-seen-off", renewal="SEALS", n=3),
        ],
        "SEALS",
        "L",
        "the old one was seen off 3 of 4 times",
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


def test_speaks_up_while_working_when_the_part_goes_on() -> None:
    job = told(NEED, OFF)
    assert job.live(CHECK) == set()

    job.say("part-fitted", part="PUMP")
    assert job.live(CHECK) == {"GASKET"}
