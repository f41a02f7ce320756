"""Where to look first: each circumstance adds its weight, people are never named."""

from __future__ import annotations

import pytest
from tests.report.journals import Written, job_of, scenario

from lastbolt.plan.where_to_look import WEIGHTS, Look, where_to_look


def of(job: Written, name: str = "NUTS", **rates: float) -> Look:
    return next(look for look in where_to_look(job.state, rates) if look.element == name)


def nuts(**described: object) -> Written:
    job = Written().add("set-described", set="NUTS", n=4, **described)
    return job.add("fasteners-removed", set="NUTS", n=4, to="B1")


def test_the_score_is_one_minus_the_product():
    look = of(nuts(critical=True))

    assert look.why == ("critical", "no photo and no second person")
    assert look.score == pytest.approx(1 - 0.9 * 0.9)


@pytest.mark.parametrize(
    ("reason", "more"),
    [
        ("interrupted", [("work-interrupted", {"element": "NUTS"})]),
        ("changed hands", [("fasteners-fitted", {"set": "NUTS", "n": 4, "source": "B1", "by": "Ben"})]),
        ("lost and found", [("thing-lost", {"loss": "L1", "what": "a nut", "set": "NUTS"})]),
        (
            "hidden soon",
            [("access-said", {"part": "LID", "element": "NUTS"}), ("part-removed", {"part": "LID"})],
        ),
        (
            "undone and done again",
            [
                ("fasteners-fitted", {"set": "NUTS", "n": 4, "source": "B1"}),
                ("fasteners-tightened", {"set": "NUTS", "value_nm": 10}),
                ("fasteners-removed", {"set": "NUTS", "n": 1, "to": "B1"}),
            ],
        ),
    ],
)
def test_each_circumstance_is_seen(reason: str, more: list[tuple[str, dict]]):
    job = nuts()
    before = of(job)
    for kind, fields in more:
        job.add(kind, **fields)

    assert reason not in before.why and reason in of(job).why
    assert of(job).score == pytest.approx(1 - (1 - before.score) * (1 - WEIGHTS[reason]))


def test_look_alikes_are_seen_within_a_pattern_and_in_a_bag():
    pattern = nuts(types={1: "M10x1.5x30", 2: "M10x1.5x40"})
    bag = Written().add("fasteners-removed", set="NUTS", n=1, to="B1", type="M10x1.5x30")
    bag.add("fasteners-removed", set="OTHER", n=1, to="B1", type="M10x1.5x40")

    assert {"look-alikes", "each hole has its own"} <= set(of(pattern).why)
    assert "look-alikes" in of(bag).why


def test_a_photo_or_a_second_person_takes_its_weight_off():
    job = nuts(critical=True).add("second-checked", elements=["NUTS"], by="Ben")

    assert of(job).why == ("critical",)


def test_a_late_entry_is_seen():
    job = Written().add(
        "fasteners-removed",
        set="NUTS",
        n=2,
        to="B1",
        mode="late",
        happened_at="2026-03-02T08:00:30Z",
        late_reason="no phone",
    )

    assert "written down late" in of(job).why


def test_what_went_wrong_before_adds_its_rate():
    assert of(nuts(), NUTS=0.12).score == pytest.approx(1 - 0.9 * 0.88)


def test_the_worst_comes_first_and_no_person_is_named():
    looks = where_to_look(job_of(scenario("S3")))

    assert [look.score for look in looks] == sorted((look.score for look in looks), reverse=True)
    assert not any(
        name in reason for look in looks for reason in look.why for name in ("Ana", "Ben", "Dev", "Eva")
    )


def test_what_was_not_touched_is_not_on_the_list():
    assert where_to_look(Written().add("set-described", set="NUTS", n=4, critical=True).state) == ()
