"""`phone-not-sent`: A phone still holds entries, or its numbering has a gap."""

from __future__ import annotations

import pytest
from tests.builders import Line, e, mark, told

CHECK = "phone-not-sent"
HOLDS = e("device-reported", reported_device="phone 2", unsent=7)

SILENT = {
    "it has sent all": [e("device-reported", reported_device="phone 2", unsent=0)],
    "what was held is settled": [
        e("entries-held", held_device="phone 2", n=2),
        e("entries-held", held_device="phone 2", n=0),
    ],
    "it sent in the end": [HOLDS, e("device-reported", reported_device="phone 2", unsent=0)],
    "the lead walked its list and called it lost": [
        HOLDS,
        e("device-reported", by="Lee", reported_device="phone 2", unsent=0, lost=True),
    ],
    "it was cut off, and then the lead walked its list": [
        e("device-reported", by="Lee", reported_device="phone 2", unknown=True, lost=True),
        e("device-reported", by="Lee", reported_device="phone 2", lost=True),
    ],
}
FIRES = {
    "two of its entries are held for a lead": (
        [e("entries-held", held_device="phone 2", n=2)],
        "phone 2",
        "B",
        "2 entries wait for a lead's look",
    ),
    "it holds seven": ([HOLDS], "phone 2", "B", "phone 2: 7 unsent"),
    "it is lost": (
        [e("device-reported", reported_device="phone 2", unsent=7, lost=True)],
        "phone 2",
        "B",
        "7 unsent, and it is lost",
    ),
    "it was cut off as lost and nobody knows what it held": (
        [e("device-reported", by="Lee", reported_device="phone 2", unknown=True, lost=True)],
        "phone 2",
        "B",
        "nobody can say what it still held, and it is lost",
    ),
    "its numbering has a gap": (
        [e("device-reported", reported_device="phone 2", gap=2)],
        "phone 2",
        "B",
        "a gap of 2 in its numbering",
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
