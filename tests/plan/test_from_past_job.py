"""A past job as a plan: everything described, nothing confirmed; this machine's differences are named."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.journal import entry_from
from lastbolt.plan.from_past_job import Plan, differences, plan_from
from lastbolt.state.job import Job


def plan(*jobs: Job, checked: bool = False) -> Plan:
    return plan_from(jobs or (job_of(scenario("S7")),), name="sensor behind the manifold", checked=checked)


def with_plan(used: Plan) -> Written:
    job = Written(job="job 7")
    for body in used.entries:
        job.add(**body)
    return job


def test_takes_over_sets_parts_connections_values_and_edges():
    used = plan()

    assert used.fields_of("set-described", "MANIFOLD BOLTS")["n"] == 10
    assert used.fields_of("spec-entered", "SENSOR BOLT")["source"] == "maker's manual p. 12"
    assert used.fields_of("connection-described", "FUEL PIPE")["part"] == "MANIFOLD"
    assert {"SENSOR BOLT", "MANIFOLD", "FUEL PIPE"} <= set(used.touched)


def test_every_entry_of_a_plan_is_well_formed_and_none_confirms_anything():
    entries = with_plan(plan(job_of(scenario("C0")))).entries
    kinds = {entry.kind for entry in entries}

    assert kinds <= {
        "job-opened", "plan-adopted", "set-described", "part-described", "connection-described", "opening-described",
        "fluid-described", "isolation-described", "setting-described", "renewal-needed", "hold-described",
        "test-described", "spec-entered", "access-said",
    }  # fmt: skip
    assert all(entry_from(entry.model_dump(mode="json")) == entry for entry in entries)


def test_a_job_that_uses_a_plan_starts_with_nothing_touched():
    job = with_plan(plan(job_of(scenario("C0")))).state

    assert job.touched == {} and job.plan_elements >= {"PUMP", "COVER", "HOSE"}
    assert not any(hole.touched for group in job.sets.values() for hole in group.holes.values())
    assert all(group.spec_checked_by == set() for group in job.sets.values())
    assert all(renewal.fitted == 0 for renewal in job.renewals.values())
    assert all(test.run is None for test in job.tests.values())


def strengths(used: Plan) -> dict[tuple[str, str], int]:
    return {
        (e.fields["part"], e.fields["element"]): e.fields["strength"]
        for e in used.elements
        if e.kind == "access-said"
    }


def test_an_edge_said_in_one_job_is_a_hint_in_two_it_counts():
    once = Written().add("access-said", part="LID", element="NUT", strength=3).state
    again = Written(job="job 2").add("access-said", part="LID", element="NUT", strength=3).state
    guessed = Written(job="job 3").add("access-said", part="LID", element="NUT", strength=0).state

    assert strengths(plan(once)) == {("LID", "NUT"): 1}
    assert strengths(plan(once, again)) == {("LID", "NUT"): 2}
    assert strengths(plan(guessed)) == {("LID", "NUT"): 0}
    assert strengths(plan(once, guessed)) == {("LID", "NUT"): 1}
    assert strengths(plan(once, checked=True)) == {("LID", "NUT"): 2}
    assert strengths(plan(guessed, checked=True)) == {("LID", "NUT"): 0}


def test_a_superseded_value_is_not_handed_on():
    job = Written().add("spec-entered", set="NUTS", min_nm=10, max_nm=12, source="manual")
    job.add("spec-superseded", set="NUTS", by_source="bulletin 4")

    assert plan(job.state).fields_of("spec-entered", "NUTS") == {}


def test_a_set_that_was_never_described_is_known_by_what_came_out():
    job = Written().add("fasteners-removed", set="LID", n=5, to="B1", type="M6x1x20")
    fields = plan(job.state).fields_of("set-described", "LID")

    assert (fields["n"], fields["type"]) == (5, "M6x1x20")


def test_this_one_has_nine_bolts():
    past = (
        Written()
        .add("set-described", set="LID", n=8, type="M6x1x20")
        .add("fasteners-removed", set="LID", n=8, to="B1")
    )
    used = plan(past.state)
    job = with_plan(used).add("fasteners-removed", set="LID", n=9, to="B1")

    assert [d.sentence for d in differences(used, job.state)] == [
        "LID, how many: 8 in the plan, 9 on this machine."
    ]


def test_another_type_and_a_thing_that_the_plan_does_not_know():
    past = (
        Written()
        .add("set-described", set="LID", n=4, type="M6x1x20")
        .add("fasteners-removed", set="LID", n=4, to="B1")
    )
    job = (
        Written(job="job 2")
        .add("set-described", set="LID", n=4, type="M6x1x25")
        .add("fasteners-removed", set="LID", n=4, to="B2")
    )
    job.add("connection-parted", connection="EARTH STRAP")

    assert [(d.element, d.what, d.planned, d.found) for d in differences(plan(past.state), job.state)] == [
        ("LID", "type", "M6x1x20", "M6x1x25"),
        ("EARTH STRAP", "is it there", "no", "yes"),
    ]


def test_a_machine_like_the_last_one_shows_no_difference():
    for name in ("C0", "S7", "S1"):
        job = job_of(scenario(name))
        assert differences(plan(job), job) == ()


def test_what_nobody_touched_yet_is_no_difference():
    assert differences(plan(), with_plan(plan()).state) == ()
