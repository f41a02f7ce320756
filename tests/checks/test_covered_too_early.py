"""`covered-too-early`: A part went on over something that was not ready."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, pulled, set_of, told, value_of

CHECK = "covered-too-early"
HELD = set_of(2, part=None)
HIDES = e("access-said", part="COVER", element="LID", need="final", route="above")
OFF = [e("part-removed", part="COVER")]
APART = [HELD, HIDES, *OFF, out(2)]
TWO_WAYS = e("access-said", part="HATCH", element="LID", need="final", route="below")

SILENT = {
    "it was tight before the cover went on": [*APART, back(2), e("part-fitted", part="COVER")],
    "one way in stays open": [
        *APART,
        TWO_WAYS,
        e("part-removed", part="HATCH"),
        e("part-fitted", part="COVER"),
        back(2),
    ],
    "the order was only guessed": [
        HELD,
        e("access-said", part="COVER", element="LID", strength=0),
        *OFF,
        out(2),
        e("part-fitted", part="COVER"),
    ],
    "a photo pair suggests it and the fasteners are in by now": [
        HELD,
        e("access-said", part="COVER", element="LID", strength=1),
        *OFF,
        out(2),
        e("part-fitted", part="COVER"),
        back(2),
    ],
    "the opening under it was looked into": [
        e("access-said", part="COVER", element="BORE", need="looked-at"),
        e("opening-opened", opening="BORE"),
        *OFF,
        e("looked-inside", opening="BORE"),
        e("part-fitted", part="COVER"),
        e("opening-closed", opening="BORE"),
    ],
    "it came off again and was finished": [
        *APART,
        e("part-fitted", part="COVER"),
        e("part-removed", part="COVER"),
        back(2),
        e("part-fitted", part="COVER"),
    ],
    "it was reached through an opening": [
        HELD,
        value_of(),
        HIDES,
        *OFF,
        out(2),
        back(2),
        e("part-fitted", part="COVER"),
        pulled(reached=True, photos=["p1"]),
    ],
    "only the place was needed": [
        HELD,
        value_of(),
        e("access-said", part="COVER", element="LID", need="placed"),
        *OFF,
        out(2),
        back(2),
        e("part-fitted", part="COVER"),
        pulled(),
    ],
}
FIRES = {
    "a hole is empty under it": (
        [*APART, e("part-fitted", part="COVER")],
        "LID",
        "B",
        "COVER went on over LID, which was not tight",
    ),
    "it was finished with no way to it": (
        [*APART, e("part-fitted", part="COVER"), back(2)],
        "LID",
        "B",
        "COVER went on over LID",
    ),
    "the last way in was shut": (
        [
            *APART,
            TWO_WAYS,
            e("part-removed", part="HATCH"),
            e("part-fitted", part="COVER"),
            e("part-fitted", part="HATCH"),
        ],
        "LID",
        "B",
        "HATCH went on over LID",
    ),
    "a photo pair suggests it": (
        [
            HELD,
            e("access-said", part="COVER", element="LID", strength=1),
            *OFF,
            out(2),
            e("part-fitted", part="COVER"),
        ],
        "LID",
        "I",
        "COVER went on over LID",
    ),
    "the opening under it was shut unseen": (
        [
            e("access-said", part="COVER", element="BORE", need="looked-at"),
            e("opening-opened", opening="BORE"),
            e("opening-closed", opening="BORE"),
            *OFF,
            e("part-fitted", part="COVER"),
        ],
        "BORE",
        "B",
        "BORE, which was not looked at",
    ),
    "a hose under it is apart": (
        [
            e("access-said", part="COVER", element="HOSE", need="placed"),
            *OFF,
            e("connection-parted", connection="HOSE"),
            e("part-fitted", part="COVER"),
        ],
        "HOSE",
        "B",
        "HOSE, which was not in place",
    ),
    "a test was due before it": (
        [
            e("test-described", test="LEAK"),
            e("access-said", part="COVER", element="LEAK"),
            *OFF,
            e("part-fitted", part="COVER"),
        ],
        "LEAK",
        "B",
        "COVER went on over LEAK",
    ),
    "for its shape it had to come first": (
        [
            e("access-said", part="COVER", element="BRACKET", shape_only=True),
            e("part-removed", part="COVER"),
            e("part-removed", part="BRACKET"),
            e("part-fitted", part="COVER"),
        ],
        "BRACKET",
        "B",
        "COVER went on over BRACKET",
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
