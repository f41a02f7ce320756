"""`second-person-missing`: Nobody but the doer has looked at a critical set."""

from __future__ import annotations

import re

import pytest
from tests.builders import Line, Told, back, decided, e, mark, out, pulled, set_of, told, value_of

CHECK = "second-person-missing"
DONE = [set_of(2, critical=True), out(2), back(2)]

SILENT = {
    "somebody else looked": [*DONE, e("second-checked", by="Ben", elements=["LID"])],
    "the set wants nobody": [set_of(2), out(2), back(2)],
    "the set was not touched": [set_of(2, critical=True)],
    "the lead accepts a look by the same person in a one-person shop": [
        set_of(2, second_person=True),
        out(2),
        back(2),
        e("second-checked", elements=["LID"], how="re-look-same-person"),
        decided("second-person-missing", "LID"),
    ],
}
FIRES = {
    "nobody looked": (DONE, "LID", "B", "LID was tightened by Ana and no second person has looked since"),
    "the doer looked": ([*DONE, e("second-checked", elements=["LID"])], "LID", "B", "Ana"),
    "the look is older than the last tightening": (
        [
            set_of(2, critical=True),
            value_of(),
            out(2),
            back(2),
            pulled(),
            e("second-checked", by="Ben", elements=["LID"]),
            pulled(),
        ],
        "LID",
        "B",
        "LID",
    ),
    "the last look was bad": (
        [
            *DONE,
            e("second-checked", by="Ben", elements=["LID"]),
            e("second-checked", by="Cho", elements=["LID"], result="bad"),
        ],
        "LID",
        "B",
        "LID",
    ),
    "a set that only wants a second person": (
        [set_of(2, second_person=True), out(2), back(2)],
        "LID",
        "L",
        "LID",
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


def looked_again(
    at: str, *, elsewhere: str = "", practice: bool = False, by: str = "Ana", done: list[Line] = DONE
) -> Told:
    """Ana did a critical set by 08:03 and looks at it again herself; she may have been elsewhere meanwhile."""
    story = Told().told(*done)
    if elsewhere:
        story.say("job-opened", at=elsewhere, job="job 2", machine="a pump", title="Pump", practice=practice)
        story.say("part-removed", at=elsewhere, job="job 2", by=by, part="HATCH")
    story.say("second-checked", at=at, elements=["LID"], how="re-look-same-person")
    return story


@pytest.mark.parametrize(
    ("story", "words"),
    [
        (looked_again("1 08:20"), "too soon"),
        (looked_again("1 08:20", elsewhere="1 08:10"), "too soon"),
        (looked_again("1 09:00"), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10"), "later"),
        (looked_again("1 09:00", elsewhere="1 08:01"), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10", practice=True), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10", by="Ben"), "too soon"),
        (looked_again("2 07:00"), "later"),
    ],
)
def test_a_look_by_the_doer_is_told_for_what_it_is_and_left_to_the_lead_once_it_counts(
    story: Told, words: str
) -> None:
    (finding,) = story.findings(CHECK)

    assert mark(finding) == ("L" if words == "later" else "B")
    assert f"Ana looked again {words} (" in finding.sentence
    assert ("counts from" in finding.to_do) is (words == "too soon")


def test_licensed_work_is_never_left_to_a_later_look_by_the_doer() -> None:
    (finding,) = looked_again(
        "2 07:00", done=[e("job-opened", machine="a plane", title="Cowl", licensed=["aviation"]), *DONE]
    ).findings(CHECK)

    assert mark(finding) == "B"
    assert "looked again later" in finding.sentence
    assert finding.to_do == "Somebody who did none of it looks, and records it."


def test_what_a_later_look_waits_for_is_said_by_the_clock() -> None:
    (finding,) = looked_again("1 09:00").findings(CHECK)

    assert re.search(r"counts from \S+ 08:33 after work on another job, else from \S+ 00:00\.", finding.to_do)
