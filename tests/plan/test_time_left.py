"""Time left: teardown minutes with pauses cut, the shop's own ratios, and a spread instead of a promise."""

from __future__ import annotations

import random
from math import exp, log
from statistics import quantiles

import pytest
from tests.report.journals import Written, job_of, scenario

from lastbolt.journal.order import in_order
from lastbolt.plan.time_left import (
    START,
    Ratio,
    Work,
    active_minutes,
    learned,
    observed,
    time_left,
    work_of,
)


def test_minutes_run_from_what_one_did_before_and_a_pause_is_cut_to_ten():
    job = Written().add("signed-on").add("fasteners-removed", set="LID", n=4, to="B1", after=6)
    job.add("part-removed", part="LID PLATE", after=90)

    assert active_minutes(in_order(job.entries)) == {"LID": 7, "LID PLATE": 10}


def test_photos_on_the_way_count_to_the_work_they_belong_to():
    job = (
        Written()
        .add("signed-on", after=0)
        .add("photo-added", photo="ph1", after=4)
        .add("container-scanned", container="B1", after=3)
    )
    job.add("fasteners-removed", set="LID", n=4, to="B1", after=2)

    assert active_minutes(in_order(job.entries))["LID"] == 9


def test_two_people_at_once_do_not_take_each_other_s_time():
    job = Written().add("signed-on", by="Ana").add("signed-on", by="Ben", after=0)
    job.add("part-removed", part="A", by="Ana", after=3).add("part-removed", part="B", by="Ben", after=1)

    assert active_minutes(in_order(job.entries)) == {"A": 3, "B": 4}


def test_the_shop_s_own_ratio_moves_slowly_from_the_starting_one():
    ratio = learned({Work.OTHER: [3.2] * 8})[Work.OTHER]

    assert ratio.middle == pytest.approx(exp((8 * log(1.6) + 8 * log(3.2)) / 16))
    assert learned({}) == START


def test_learns_from_a_finished_job():
    entries = scenario("S7")
    ratios = observed(job_of(entries), in_order(entries))

    assert all(ratio > 0 for seen in ratios.values() for ratio in seen)
    assert sum(len(seen) for seen in ratios.values()) >= 10


def test_knows_seals_panels_and_the_rest():
    job = job_of(scenario("S7"))

    assert work_of(job, "MANIFOLD BOLTS") is work_of(job, "MANIFOLD") is Work.SEAL
    assert work_of(job, "AIRBOX") is work_of(job, "AIRBOX BOLTS") is Work.PANEL
    assert work_of(job, "STARTER BOLTS") is work_of(job, "FUEL PIPE") is Work.OTHER


def test_adds_up_what_is_open_and_names_what_it_cannot_count():
    entries = scenario("S7", "1 08:40")
    apart = active_minutes(in_order(entries)) | {"SENSOR BOLT": 0.0}
    left = time_left(job_of(entries), apart)

    assert left.uncounted == ("SENSOR BOLT",)
    assert {s.element: s.work for s in left.steps}["MANIFOLD BOLTS"] is Work.SEAL
    assert sum(s.middle_minutes for s in left.steps) < left.p50 * 1.1
    assert left.p50 < left.p80 < 2 * left.p50


def test_described_minutes_stand_in_where_the_teardown_was_not_timed():
    job = Written().add("part-described", part="LID", minutes=26).add("part-removed", part="LID")
    left = time_left(job.state, {})

    assert [(s.element, s.apart_minutes, s.middle_minutes) for s in left.steps] == [
        ("LID", pytest.approx(10), pytest.approx(16))
    ]


def test_waits_for_seals_on_order_and_parts_sent_out():
    job = (
        Written()
        .add("part-removed", part="HEAD", place="SENT OUT")
        .add("renewal-needed", renewal="HEAD GASKET", under="HEAD")
    )

    assert time_left(job.state, {}).waits_for == ("HEAD", "1 x HEAD GASKET")


def test_nothing_left_takes_no_time():
    left = time_left(job_of(scenario("C0")), {})

    assert (left.p50, left.p80, left.steps) == (0, 0, ())


def test_the_points_are_those_of_many_drawn_jobs():
    job = Written()
    for n in range(12):
        job.add("part-removed", part=f"P{n}")
    apart = {f"P{n}": 2.0 + n for n in range(12)}
    left = time_left(job.state, apart, dict.fromkeys(Work, Ratio(1.6, 0.5)))
    draw = random.Random(5)
    sums = [sum(1.6 * d * exp(draw.gauss(0, 0.5)) for d in apart.values()) for _ in range(20_000)]
    fifths = quantiles(sums, n=10)

    assert left.p50 == pytest.approx(fifths[4], rel=0.02)
    assert left.p80 == pytest.approx(fifths[7], rel=0.02)


def test_says_that_it_is_an_estimate():
    left = time_left(job_of(scenario("S7", "1 08:40")), {"COOLER": 5.0})

    assert left.sentence.startswith("As likely as not under ") and left.sentence.endswith("An estimate.")
