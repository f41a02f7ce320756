"""`spec-not-trusted`: The value used has no sound source."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, decided, e, mark, out, pulled, set_of, told, value_of

CHECK = "spec-not-trusted"
NEWER = e("spec-superseded", set="LID", by_source="bulletin 7")

SILENT = {
    "it has a source": [set_of(2), value_of(), out(2)],
    "the set was not touched": [set_of(2), value_of(source=None)],
    "a low value": [set_of(2), value_of(2, 3), out(2)],
    "it is hand tight by design": [set_of(2), e("spec-entered", set="LID", hand_tight=True), out(2)],
    "the lead accepts it": [set_of(2), value_of(source=None), out(2), decided("spec-not-trusted", "LID")],
}
FIRES = {
    "it has no source": ([set_of(2), value_of(source=None), out(2)], "LID", "L", "it has no source"),
    "it is superseded": (
        [set_of(2), value_of(), out(2), NEWER],
        "LID",
        "L",
        "it is superseded by bulletin 7",
    ),
    "a general table was used": (
        [set_of(2), value_of(general_table=True), out(2)],
        "LID",
        "L",
        "a general table was used",
    ),
    "lbf·in was typed as lbf·ft": (
        [set_of(2), value_of(240, 300), out(2)],
        "LID",
        "L",
        "The value of LID is not to be trusted",
    ),
    "it is critical and was typed in mid-job by who pulled it": (
        [set_of(2, critical=True), out(2), value_of(), back(2), pulled()],
        "LID",
        "L",
        "nobody else read it",
    ),
    "a word from before the newer value does not cover it": (
        [set_of(2), value_of(source=None), out(2), decided("spec-not-trusted", "LID"), NEWER],
        "LID",
        "L",
        "superseded",
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
