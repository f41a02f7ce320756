"""`second-person-missing`: Nobody but the doer has looked at a critical set."""

from __future__ import annotations

import re
from collections.abc import Sequence

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


NEW = {"photos": ("from the other side",)}
"""What a later look must bring beside the look (practice 5.10): here a photo that was taken with it."""


def looked_again(
    at: str,
    *,
    elsewhere: str = "",
    practice: bool = False,
    by: str = "Ana",
    done: Sequence[Line] = DONE,
    photo: str = "",
    **more: object,
) -> Told:
    """Ana did a critical set by 08:03 and looks at it again herself; she may have been elsewhere meanwhile.

    `photo` is when the photo came in that `more` names, if not with the look.
    """
    story = Told().told(*done)
    if elsewhere:
        story.say("job-opened", at=elsewhere, job="job 2", machine="a pump", title="Pump", practice=practice)
        story.say("part-removed", at=elsewhere, job="job 2", by=by, part="HATCH")
    if "photos" in more:
        story.say("photo-added", at=photo or at, photo="from the other side", element="LID")
    story.say("second-checked", at=at, elements=["LID"], how="re-look-same-person", **more)
    return story


@pytest.mark.parametrize(
    ("story", "words"),
    [
        (looked_again("1 08:20", **NEW), "too soon"),
        (looked_again("1 08:20", elsewhere="1 08:10", **NEW), "too soon"),
        (looked_again("1 09:00", **NEW), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10", **NEW), "later"),
        (looked_again("1 09:00", elsewhere="1 08:01", **NEW), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10", practice=True, **NEW), "too soon"),
        (looked_again("1 09:00", elsewhere="1 08:10", by="Ben", **NEW), "too soon"),
        (looked_again("2 07:00", **NEW), "later"),
    ],
)
def test_a_look_by_the_doer_is_told_for_what_it_is_and_left_to_the_lead_once_it_counts(
    story: Told, words: str
) -> None:
    (finding,) = story.findings(CHECK)

    assert mark(finding) == ("L" if words == "later" else "B")
    assert f"Ana looked again {words}" in finding.sentence
    assert ("counts from" in finding.to_do) is (words == "too soon")


WITH_VALUE = [set_of(2, critical=True), value_of(), out(2), back(2), pulled()]


@pytest.mark.parametrize(
    ("story", "severity", "said", "to_do"),
    [
        (looked_again("2 07:00"), "B", "did no more than look", "looks again and takes a photo from another"),
        (looked_again("2 07:00", photo="1 08:10", **NEW), "B", "did no more than look", "takes a photo"),
        (looked_again("2 07:00", photo="1 09:10", **NEW), "L", "from another angle (", "the lead writes why"),
        (looked_again("2 07:00", torque_again=True), "B", "did no more than look", "takes a photo"),
        (
            looked_again("2 07:00", done=WITH_VALUE),
            "B",
            "did no more than look",
            "tries the torque again, or",
        ),
        (
            looked_again("2 07:00", done=WITH_VALUE, torque_again=True),
            "L",
            "Ana tried the torque again later (",
            "the lead writes why",
        ),
        (looked_again("2 07:00", done=WITH_VALUE, **NEW), "L", "from another angle (", "the lead writes why"),
    ],
)
def test_a_later_look_must_be_more_than_a_look(story: Told, severity: str, said: str, to_do: str) -> None:
    """Practice 5.10: with the torque tried again, or a photo from another angle; a photo of the work is neither."""
    (finding,) = story.findings(CHECK)

    assert mark(finding) == severity
    assert said in finding.sentence
    assert to_do in finding.to_do


def test_a_later_look_with_a_photo_is_not_lost_behind_one_that_was_a_look_alone() -> None:
    story = looked_again("2 07:00", **NEW)
    story.say("second-checked", at="2 07:10", elements=["LID"], how="re-look-same-person")
    (finding,) = story.findings(CHECK)

    assert mark(finding) == "L" and "from another angle" in finding.sentence


def test_licensed_work_is_never_left_to_a_later_look_by_the_doer() -> None:
    (finding,) = looked_again(
        "2 07:00",
        **NEW,
        done=[e("job-opened", machine="a plane", title="Cowl", licensed=["aviation"]), *DONE],
    ).findings(CHECK)

    assert mark(finding) == "B"
    assert "looked again later" in finding.sentence
    assert finding.to_do == "Somebody who did none of it looks, and records it."


def test_what_a_later_look_waits_for_is_said_by_the_clock() -> None:
    (finding,) = looked_again("1 09:00").findings(CHECK)

    assert re.search(r"counts from \S+ 08:33 after work on another job, else from \S+ 00:00\.", finding.to_do)
