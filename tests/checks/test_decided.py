"""What the lead's word lifts, and what is known only since the word sets up again."""

from __future__ import annotations

import pytest
from tests.builders import DEFERRED, Line, back, decided, e, mark, out, pulled, set_of, told, value_of

HELD = decided("hole-empty", "LID", "defer", **DEFERRED)
TESTED = [
    e("test-described", test="RUN", scope=["COVER", "GUARD"]),
    *(e("part-removed", part=part) for part in ("COVER", "GUARD")),
    *(e("part-fitted", part=part) for part in ("COVER", "GUARD")),
    e("test-run", test="RUN", passed=True),
]
AGAIN = {part: [e("part-removed", part=part), e("part-fitted", part=part)] for part in ("COVER", "GUARD")}
LONG = "M8x1.25x50"
MANY = [
    set_of(30),
    out(30),
    back(20, "NEW", holes=list(range(1, 21)), type=LONG),
    decided("wrong-fastener", "LID", "defer", **DEFERRED),
]

STANDS_AGAIN = {
    "another hole came empty": ([set_of(6), out(1, holes=[3]), HELD, out(1, holes=[5])], "hole-empty"),
    "another was written down late as empty before the word": (
        [
            set_of(6),
            out(1, holes=[3]),
            out(1, holes=[5]),
            out(1, holes=[6]),
            back(2, holes=[5, 6]),
            HELD,
            out(1, holes=[4], mode="late", happened_at="2026-03-02T08:02:30+00:00"),
        ],
        "hole-empty",
    ),
    "the twenty-first fault of its kind came up": (
        [*MANY, back(1, "NEW", holes=[21], type=LONG)],
        "wrong-fastener",
    ),
    "another fastener was slackened and pulled by feel": (
        [
            set_of(2),
            value_of(),
            out(1),
            back(1),
            decided("torque-missing", "LID", "defer", **DEFERRED),
            e("fasteners-loosened", set="LID", holes=[2]),
            e("fasteners-retightened", set="LID", holes=[2]),
        ],
        "torque-missing",
    ),
    "the value that is asked is another one": (
        [
            set_of(1),
            value_of(20, 25),
            out(1),
            back(1),
            pulled(26),
            decided("torque-out-of-range", "LID", "defer", **DEFERRED),
            value_of(40, 45),
        ],
        "torque-out-of-range",
    ),
    "another part of a test's scope was touched": (
        [
            *TESTED,
            *AGAIN["COVER"],
            decided("test-missing-or-stale", "RUN", "defer", **DEFERRED),
            *AGAIN["GUARD"],
        ],
        "test-missing-or-stale",
    ),
}


@pytest.mark.parametrize(("lines", "check"), STANDS_AGAIN.values(), ids=STANDS_AGAIN)
def test_new_evidence_sets_a_finding_up_again(lines: list[Line], check: str) -> None:
    word = next(number for number, (kind, _) in enumerate(lines) if kind == "finding-decided")

    assert told(*lines[: word + 1]).findings(check) == []
    assert len(told(*lines).findings(check)) == 1


def test_voiding_what_was_fitted_sets_a_finding_up_again() -> None:
    job = told(set_of(6), out(6))
    fitted = job.say("fasteners-fitted", set="LID", n=5, source="B1")
    job.told(HELD, decided("tray-not-empty", "B1", "defer", **DEFERRED))
    assert job.marks() == set()

    job.say("entry-voided", entry=fitted, reason="that was another set")
    assert job.marks() == {("hole-empty", "LID", "B"), ("tray-not-empty", "B1", "B")}


def test_a_replacement_sets_up_again_what_it_names_before_and_after() -> None:
    job = told(set_of(6), set_of(6, "PAN"), out(6), out(6, "B2", "PAN"), back(5), back(5, "B2", "PAN"))
    moved = job.say("fasteners-fitted", set="LID", n=1, source="B1")
    word = decided("hole-empty", "PAN", "defer", **DEFERRED)
    job.told(word, decided("tray-not-empty", "B2", "defer", **DEFERRED))
    assert job.marks() == set()

    job.say("entry-replaced", entry=moved, fields={"set": "PAN", "source": "B2"}, reason="of the pan")
    assert job.marks() == {("hole-empty", "LID", "B"), ("tray-not-empty", "B1", "B")}


def test_voiding_a_void_sets_a_finding_up_again() -> None:
    job = told(set_of(6), out(6), back(6))
    again = job.say("fasteners-removed", set="LID", holes=[1, 2], to="SCRAP")
    void = job.say("entry-voided", entry=again, reason="not done yet")
    job.told(out(1, "SCRAP", holes=[6]), HELD)
    assert job.marks() == set()

    job.say("entry-voided", entry=void, reason="it was done")
    assert job.marks() == {("hole-empty", "LID", "B")}


def test_correcting_a_word_or_another_thing_sets_nothing_up_again() -> None:
    job = told(
        set_of(6), set_of(2, "PAN"), out(6), back(5), e("fasteners-moved", n=1, source="B1", to="SCRAP")
    )
    word = job.say("finding-decided", check="loose-ends", subject="LID", decision="accept", role="lead")
    other = job.say("fasteners-removed", set="PAN", n=1, to="B2")
    job.told(HELD)
    job.say("entry-voided", entry=word, reason="wrong check")
    job.say("entry-voided", entry=other, reason="wrong set")

    assert job.marks() == set()


def test_many_acts_give_the_newest_twenty_as_evidence() -> None:
    lines = [
        line
        for hole in range(1, 26)
        for line in (out(1, holes=[hole]), back(1, "NEW", holes=[hole], type=LONG))
    ]
    (finding,) = told(set_of(25), *lines).findings("wrong-fastener")

    assert mark(finding) == "B"
    assert len(finding.evidence.entries) == 20
    assert len(finding.holes) == 25
