"""What next: what must be ready before it is hidden, then the reverse of taking apart; the end comes last."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt import checks
from lastbolt.finding import Case
from lastbolt.plan.next_step import next_steps
from lastbolt.plan.step import Fetch, open_steps


def test_with_all_of_it_off_the_last_thing_off_comes_first():
    found = next_steps(job_of(scenario("S7", "1 08:40")))

    assert found.big is not None
    assert (found.big.kind, found.big.element) == ("fit", "SENSOR BOLT")
    assert found.big.fetch == (Fetch("B9", None, 1),)
    assert found.big.sentence == "Fit 1 fastener of SENSOR BOLT from B9."


def test_what_the_next_part_would_hide_comes_before_that_part():
    found = next_steps(job_of(scenario("S7", "1 11:00")))
    waiting = {step.element: step.waits_for for step in found.waiting}

    assert found.big is not None
    assert (found.big.kind, found.big.element) == ("tighten", "SENSOR BOLT")
    assert "STARTER BOLTS" in waiting and waiting["STARTER BOLTS"] == "STARTER is not on yet"


def test_one_route_that_stays_open_lets_the_other_part_go_on():
    found = next_steps(job_of(scenario("S7", "1 11:00")))

    assert "STARTER" in {step.element for step in found.small}


def test_a_part_waits_for_what_it_would_bury():
    found = next_steps(job_of(scenario("S7", "1 11:20")))
    waiting = {step.element: step.waits_for for step in found.waiting}

    assert waiting["MANIFOLD"] == "SENSOR BOLT: 1 is fitted and not tight"


def test_what_was_buried_is_mended_first_with_the_way_back_in():
    job = job_of(scenario("S7", "1 11:44"))
    live = checks.run(Case(job, asking="live", at=job.now))

    big = next_steps(job, live).big

    assert big is not None and (big.kind, big.element, big.minutes) == ("mend", "SENSOR BOLT", 24)
    assert "take off HEAT SHIELD, then STARTER: 24 min" in big.why


def test_a_seal_is_brought_and_goes_on_before_its_part():
    found = next_steps(job_of(scenario("C0", "1 12:07")))
    waiting = {step.element: step for step in found.waiting}

    assert "PUMP GASKET" in {s.element for s in (found.big, *found.small) if s}
    assert waiting["PUMP"].waits_for.startswith("PUMP GASKET: 0 of 1 renewed")


def test_fluids_energy_and_tests_wait_for_the_rest():
    found = next_steps(job_of(scenario("C0", "1 12:07")))
    waiting = {step.kind: step.waits_for for step in found.waiting}

    assert {"fill", "restore", "test"} <= waiting.keys()
    assert "HOSE" in waiting["fill"]


def test_at_the_end_only_the_end_is_left():
    found = next_steps(job_of(scenario("C0", "1 12:38")))

    assert found.big is not None and found.big.kind == "fill"
    assert {step.kind for step in found.waiting} == {"restore", "test"}


def test_a_finished_job_has_no_next_step():
    job = job_of(scenario("C0"))

    assert open_steps(job) == () and next_steps(job).big is None


def test_a_part_that_was_sent_out_waits_to_come_back():
    job = (
        Written()
        .add("part-removed", part="HEAD", place="SENT OUT")
        .add("part-removed", part="LID", place="shelf 2")
    )

    found = next_steps(job.state)

    assert found.big is not None and found.big.element == "LID" and "shelf 2" in found.big.sentence
    assert [(s.element, s.waits_for) for s in found.waiting] == [("HEAD", "it is not here (SENT OUT)")]


def test_a_towel_comes_out_before_the_opening_is_shut():
    job = (
        Written()
        .add("opening-opened", opening="INTAKE")
        .add("item-brought-in", item="towel", opening="INTAKE", n=2)
    )
    job.add("opening-covered", opening="INTAKE")

    big = next_steps(job.state).big

    assert big is not None
    assert big.sentence == "Take out 2 x towel. Close INTAKE: take off 1 cover, look inside, shut it."


def test_stays_in_the_zone_where_hands_are():
    job = Written()
    for part, zone in (("FAR", "bow"), ("NEAR", "stern"), ("DONE", "stern")):
        job.add("part-described", part=part, zone_name=zone)
    job.add("part-removed", part="NEAR", after=0).add("part-removed", part="FAR", after=0)
    job.add("part-removed", part="DONE").add("part-fitted", part="DONE")

    big = next_steps(job.state).big

    assert big is not None and big.element == "NEAR"


def test_a_hold_point_is_called_for_when_all_under_its_part_is_ready():
    early = {s.element: s.waits_for for s in next_steps(job_of(scenario("C0", "1 12:28"))).waiting}
    steps = next_steps(job_of(scenario("C0", "1 12:34")))

    assert early["LOOK UNDER COVER"].startswith("PUMP: 4 are fitted and not tight")
    assert (
        steps.big is not None
        and steps.big.sentence == "Call who must look: LOOK UNDER COVER, before COVER goes on."
    )
    assert {s.element: s.waits_for for s in steps.waiting}[
        "COVER"
    ] == "LOOK UNDER COVER: nobody has looked yet"


def test_below_signed_work_nobody_is_asked_to_pull_a_value():
    def flange(level: int) -> Written:
        job = (
            Written(level=level)
            .add("set-described", set="FLANGE", n=2)
            .add("spec-entered", set="FLANGE", min_nm=5, max_nm=7)
        )
        return job.add("fasteners-removed", set="FLANGE", n=2, to="B1").add(
            "fasteners-fitted", set="FLANGE", n=2, source="B1"
        )

    assert open_steps(flange(2).state) == ()
    assert [step.kind for step in open_steps(flange(3).state)] == ["tighten"]


def test_a_fluid_that_is_short_or_was_not_looked_at_since_is_still_to_fill():
    short = Written().add("fluid-drained", fluid="OIL", litres=38).add("fluid-filled", fluid="OIL", litres=30)
    short.add("fluid-checked", fluid="OIL")
    (step,) = open_steps(short.state)
    assert (step.kind, step.sentence.startswith("Fill OIL (8 L to go)")) == ("fill", True)

    refilled = short.add("fluid-filled", fluid="OIL", litres=8)
    assert [step.kind for step in open_steps(refilled.state)] == ["fill"]
    assert open_steps(refilled.add("fluid-checked", fluid="OIL").state) == ()


def test_a_test_that_nobody_ran_is_a_step_though_nothing_of_its_scope_was_touched():
    described = Written().add("test-described", test="LIFT", scope=["ARM"])

    assert [(step.kind, step.element) for step in open_steps(described.state)] == [("test", "LIFT")]
    assert open_steps(described.add("test-run", test="LIFT", passed=True).state) == ()
