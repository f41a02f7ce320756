"""`changed-after-release`: Hands were on the machine after it was released, or a deferral has run out."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, decided, e, mark, set_of, told

CHECK = "changed-after-release"
SIGNED = [set_of(2), e("release-signed", by="Lee")]
LOOSEN = e("fasteners-loosened", set="LID")

SILENT = {
    "photos and notes only": [*SIGNED, e("photo-added", photo="p1", element="LID")],
    "it was reopened with its scope": [*SIGNED, e("job-reopened", reason="bracket again"), LOOSEN],
    "the deferral still runs": [
        e("part-removed", part="GUARD"),
        decided("part-not-back-on", "GUARD", "defer", **DEFERRED),
    ],
    "the deferred work was done": [
        e("part-removed", part="GUARD"),
        decided("part-not-back-on", "GUARD", "defer", **DEFERRED),
        e("part-fitted", at="20 08:00", part="GUARD"),
        e("signed-on", at="40 08:00"),
    ],
}
FIRES = {
    "a bracket was loosened next day": (
        [*SIGNED, LOOSEN],
        "LID",
        "B",
        "Ana worked on LID after the machine was released",
    ),
    "a deferral ran out": (
        [
            e("part-removed", part="GUARD"),
            decided("part-not-back-on", "GUARD", "defer", **DEFERRED),
            e("signed-on", at="40 08:00"),
        ],
        "GUARD",
        "B",
        "The deferral of GUARD (part-not-back-on) ran out",
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
