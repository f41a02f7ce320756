"""`more-than-logged`: Something goes back that was never logged as apart."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, pulled, set_of, told

CHECK = "more-than-logged"

SILENT = {
    "every debt was opened before it was paid": [
        set_of(4),
        out(4),
        e("part-removed", part="LID"),
        e("part-fitted", part="LID"),
        back(4),
    ],
    "the fasteners were slackened in slots": [
        set_of(2, loosened_only=True),
        e("fasteners-loosened", set="LID"),
        e("part-removed", part="LID"),
    ],
    "the part's bolts are recorded after it": [set_of(4), e("part-removed", part="LID"), out(4)],
    "a probe that is always open gets a cover": [
        e("opening-described", opening="PROBE", always_open=True),
        e("opening-covered", opening="PROBE"),
    ],
    "the lead says what happened": [set_of(4), back(1), decided("more-than-logged", "LID")],
}
FIRES = {
    "more are fitted than are out": (
        [set_of(4), out(2), back(3)],
        "LID",
        "L",
        "more was fitted than was logged as out (1)",
    ),
    "more are bagged than came out": (
        [set_of(4), out(2, bagged=3)],
        "LID",
        "L",
        "more was bagged than came out (1)",
    ),
    "more came out than the set has": ([set_of(4), out(5)], "LID", "L", "more came out than the set has"),
    "the set is critical": ([set_of(4, critical=True), out(2), back(3)], "LID", "B", "LID"),
    "a part comes off with its bolts in": (
        [set_of(4), e("part-removed", part="LID")],
        "LID",
        "L",
        "LID came off while fasteners of it",
    ),
    "a part comes off again with its refitted bolts in": (
        [
            set_of(4),
            out(4),
            e("part-removed", part="LID"),
            e("part-fitted", part="LID"),
            back(4),
            e("part-removed", part="LID"),
        ],
        "LID",
        "L",
        "LID came off while fasteners of it were never logged as out (4)",
    ),
    "a part comes off with its hose on": (
        [e("connection-described", connection="HOSE", part="PUMP"), e("part-removed", part="PUMP")],
        "HOSE",
        "L",
        "never logged as apart",
    ),
    "a part goes on that was never off": ([e("part-fitted", part="LID")], "LID", "L", "never logged as off"),
    "a connection is made that was never apart": (
        [e("connection-made", connection="HOSE")],
        "HOSE",
        "L",
        "never logged as apart",
    ),
    "torque is pulled on an empty hole": (
        [set_of(4), out(4), pulled(holes=[1])],
        "LID",
        "L",
        "torque was pulled where no fastener",
    ),
    "torque is pulled on nothing at all": (
        [set_of(4), out(4), pulled()],
        "LID",
        "L",
        "torque was pulled where no fastener",
    ),
    "a mouth is covered that was never open": (
        [e("opening-covered", opening="PORT")],
        "PORT",
        "L",
        "nothing was logged as open",
    ),
    "a fluid goes in that never came out": (
        [e("fluid-filled", fluid="OIL", litres=3)],
        "OIL",
        "L",
        "never logged as drained",
    ),
    "a setting is set without its old value": (
        [e("setting-set", setting="GAP", value=1)],
        "GAP",
        "L",
        "value as found was never logged",
    ),
    "a tag is lifted that was never hung": (
        [e("isolation-removed", isolation="MAINS")],
        "MAINS",
        "L",
        "never logged as cut off",
    ),
    "more towels come out than went in": (
        [e("item-taken-out", item="towel")],
        "towel",
        "L",
        "more came out than",
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
