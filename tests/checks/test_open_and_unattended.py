"""`open-and-unattended`: An opening stood bare while nobody was there."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "open-and-unattended"
PORTS = [e("opening-described", opening="PORTS", mouths=4), e("opening-opened", opening="PORTS")]

SILENT = {
    "every mouth was covered": [
        e("signed-on"),
        *PORTS,
        e("opening-covered", opening="PORTS", n=4),
        e("signed-off"),
    ],
    "somebody else was signed on": [e("signed-on"), e("signed-on", by="Ben"), *PORTS, e("signed-off")],
    "it was a break": [e("signed-on"), *PORTS, e("signed-off", why="break")],
    "another works on who never signed on": [
        e("signed-on"),
        *PORTS,
        e("looked-inside", by="Ben", opening="PORTS"),
        e("part-removed", by="Ben", part="LID"),
        e("signed-off"),
        e("part-fitted", by="Ben", part="LID"),
    ],
    "a bodywork cavity": [
        e("signed-on"),
        e("opening-described", opening="SILL", opening_class="C"),
        e("opening-opened", opening="SILL"),
        e("signed-off"),
    ],
    "a hose end over midday": [
        e("signed-on"),
        e("opening-described", opening="HOSE", opening_class="B"),
        e("opening-opened", opening="HOSE"),
        e("signed-off"),
    ],
}
FIRES = {
    "three of four were covered": (
        [e("signed-on"), *PORTS, e("opening-covered", opening="PORTS", n=3), e("signed-off")],
        "PORTS",
        "L",
        "PORTS stood bare",
    ),
    "the break lasted until the next day": (
        [e("signed-on"), *PORTS, e("signed-off", why="break"), e("signed-on", at="2 07:30")],
        "PORTS",
        "L",
        "PORTS",
    ),
    "a hose end from midday to the next day": (
        [
            e("signed-on"),
            e("opening-described", opening="HOSE", opening_class="B"),
            e("opening-opened", opening="HOSE"),
            e("signed-off", at="1 12:00"),
            e("signed-on", at="2 07:30"),
        ],
        "HOSE",
        "L",
        "HOSE",
    ),
    "a hose end overnight": (
        [
            e("signed-on"),
            e("opening-described", opening="HOSE", opening_class="B"),
            e("opening-opened", opening="HOSE"),
            e("signed-off", at="1 18:00"),
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
