"""`person-not-allowed`: Somebody did or signed what needs a licence or a role."""

from __future__ import annotations

import pytest
from tests.builders import Line, back, e, mark, out, set_of, told

CHECK = "person-not-allowed"
AVIATION = e("job-opened", licensed=["aviation"])
SET = set_of(2, critical=True)
HOLDS = e("licence-recorded", person="Ana", licence="aviation", until="2026-12-31")

SILENT = {
    "the doer holds the licence": [AVIATION, SET, HOLDS, out(2), back(2)],
    "a holder countersigned": [
        AVIATION,
        SET,
        e("licence-recorded", person="Ida", licence="aviation"),
        out(2),
        back(2),
        e("second-checked", by="Ida", elements=["LID"]),
    ],
    "the job has no licensed work": [SET, out(2), back(2)],
    "cowl screws without a value are anybody's": [AVIATION, set_of(2), out(2), back(2, by="Gus")],
    "somebody called licensed countersigned": [
        AVIATION,
        SET,
        e("person-described", person="Ida", roles=["licensed"]),
        out(2),
        back(2),
        e("second-checked", by="Ida", elements=["LID"]),
    ],
    "a lead signed": [e("person-described", person="Lee", roles=["lead"]), e("release-signed", by="Lee")],
}
FIRES = {
    "a helper did it": (
        [AVIATION, SET, out(2), back(2, by="Gus")],
        "LID",
        "B!",
        "LID was done by Gus, without the licence this job asks for (aviation)",
    ),
    "the licence had run out by then": (
        [
            AVIATION,
            SET,
            e("licence-recorded", person="Ana", licence="aviation", until="2026-03-01"),
            out(2),
            back(2),
        ],
        "LID",
        "B!",
        "Ana",
    ),
    "it is another licence": (
        [AVIATION, SET, e("licence-recorded", person="Ana", licence="gas"), out(2), back(2)],
        "LID",
        "B!",
        "Ana",
    ),
    "a helper signed the release": (
        [e("person-described", person="Gus", roles=["helper"]), e("release-signed", by="Gus")],
        "Gus",
        "B!",
        "Gus signed the release and is no lead",
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
