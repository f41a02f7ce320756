"""Before a part goes on: what it shuts away and what under it is not ready."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.plan.unreachable import Shut, unreachable_after


def test_names_what_would_be_buried_and_what_is_left_to_do():
    found = unreachable_after(job_of(scenario("S7", "1 11:20")), "MANIFOLD")

    assert found.shut == (Shut("SENSOR BOLT", "final", False, "SENSOR BOLT: 1 is fitted and not tight"),)


def test_nothing_becomes_unreachable_while_another_way_is_open():
    assert unreachable_after(job_of(scenario("S7", "1 11:00")), "STARTER").shut == ()


def test_a_part_that_is_on_shuts_nothing_more():
    assert unreachable_after(job_of(scenario("S7", "1 12:00")), "MANIFOLD").shut == ()


def test_a_guess_is_named_apart():
    found = unreachable_after(job_of(scenario("S7", "1 08:40")), "COOLER")

    assert "SHIELD BOLTS" in found.maybe and "SHIELD BOLTS" not in {thing.element for thing in found.shut}


def test_what_is_ready_may_be_covered():
    found = unreachable_after(job_of(scenario("C0", "1 12:35")), "COVER")

    assert [(thing.element, thing.ready) for thing in found.shut] == [("PUMP", True)]
    assert found.owed == ()


def test_names_the_hold_point_the_seal_and_the_rag():
    job = Written().add("part-removed", part="LID").add("hold-described", hold="LOOK IN", before="LID")
    job.add("renewal-needed", renewal="LID SEAL", under="LID").add("access-said", part="LID", element="BORE")
    job.add("opening-opened", opening="BORE").add("item-brought-in", item="rag", opening="BORE")

    found = unreachable_after(job.state, "LID")

    assert found.owed == (
        "LID SEAL: 0 of 1 renewed.",
        "LOOK IN: nobody has looked yet.",
        "1 rag is still in BORE.",
    )


def test_what_must_be_on_first_is_asked_for():
    job = Written().add("part-removed", part="ELBOW").add("part-removed", part="BRACKET")
    job.add("access-said", part="BRACKET", element="ELBOW", shape_only=True)

    assert unreachable_after(job.state, "BRACKET").owed == ("ELBOW must be on before BRACKET.",)


def test_below_signed_work_in_place_is_all_that_is_asked():
    job = (
        Written(level=2)
        .add("set-described", set="NUTS", n=2)
        .add("spec-entered", set="NUTS", min_nm=5, max_nm=7)
    )
    job.add("access-said", part="LID", element="NUTS").add("part-removed", part="LID")
    job.add("fasteners-removed", set="NUTS", n=2, to="B1").add(
        "fasteners-fitted", set="NUTS", n=2, source="B1"
    )

    found = unreachable_after(job.state, "LID")

    assert found.owed == ()
    assert [thing.ready for thing in found.shut] == [True]


def test_a_look_inside_is_asked_for_below_signed_work_too():
    job = Written(level=2).add("part-removed", part="LID").add("opening-opened", opening="BORE")
    job.add("access-said", part="LID", element="BORE", need="looked-at").add("opening-closed", opening="BORE")

    assert [(thing.need, thing.ready) for thing in unreachable_after(job.state, "LID").shut] == [
        ("looked-at", False)
    ]
