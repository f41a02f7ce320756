"""The undo path on real journals: the cheapest way, what it spends, and what nobody is sure of."""

from __future__ import annotations

from datetime import timedelta

from tests.replay.scenario_journal import DAY_ONE, Journal
from tests.report.journals import Written, job_of, scenario

from lastbolt.journal import entry_from
from lastbolt.plan.undo import InTheWay, undo_path
from lastbolt.state import replay


def test_the_worked_case_goes_in_from_below():
    path = undo_path(job_of(scenario("S7", "1 12:00")), "SENSOR BOLT")

    assert path.parts == ("HEAT SHIELD", "STARTER")
    assert path.minutes == path.cost == 24
    assert path.renewals == path.single_use == path.openings == ()
    assert path.torques == (("STARTER BOLTS", 2),)
    assert path.in_the_way == (InTheWay("COOLER", "SHIELD BOLTS", 0),)
    assert path.proven
    assert (
        path.sentence == "To get at SENSOR BOLT take off HEAT SHIELD, then STARTER: 24 min, spends nothing."
    )


def test_once_the_starter_is_off_nothing_is_in_the_way():
    path = undo_path(job_of(scenario("S7", "1 12:14")), "SENSOR BOLT")

    assert path.parts == ()
    assert path.sentence == "Nothing that is on lies over SENSOR BOLT."


def test_from_above_it_would_be_65_minutes_and_the_gasket():
    path = undo_path(job_of(scenario("S7", "1 12:00")), "MANIFOLD BOLTS")
    above = undo_path(only_from_above(), "SENSOR BOLT")

    assert set(path.parts) == {"COOLER", "AIRBOX"}
    assert set(above.parts) == {"COOLER", "AIRBOX", "MANIFOLD"} and above.parts[-1] == "MANIFOLD"
    assert (above.minutes, above.cost) == (65, 80)
    assert above.renewals == ("the seal under MANIFOLD",)
    assert "FUEL PIPE" in above.undone


def only_from_above():
    entries = [e for e in scenario("S7", "1 12:00") if getattr(e, "route", None) != "below"]
    return job_of(entries)


def pump(**renewal: object) -> Written:
    job = Written().add("set-described", set="PUMP BOLTS", n=4, part="PUMP", single_use=True)
    job.add("part-described", part="PUMP", minutes=20)
    job.add("renewal-needed", renewal="PUMP GASKET", under="PUMP", **renewal)
    job.add("access-said", part="PUMP", element="SEAT").add("access-said", part="PUMP", element="BORE")
    job.add("fasteners-removed", set="PUMP BOLTS", n=4, to="B1").add("part-removed", part="PUMP")
    job.add("opening-opened", opening="BORE").add("opening-closed", opening="BORE")
    job.add("renewal-fitted", renewal="PUMP GASKET").add("part-fitted", part="PUMP")
    return job.add("fasteners-fitted", set="PUMP BOLTS", n=4, source="NEW", new=True)


def test_counts_what_gets_spent_and_what_comes_open_again():
    path = undo_path(pump().state, "SEAT")

    assert path.renewals == ("PUMP GASKET",)
    assert path.single_use == ("PUMP BOLTS",)
    assert path.openings == ("BORE",)
    assert (path.minutes, path.cost) == (20, 95)


def test_a_renewal_that_may_be_used_again_is_not_spent():
    assert undo_path(pump(reuse_allowed=True).state, "SEAT").renewals == ()


def test_a_set_that_is_wholly_out_needs_no_way_to_it():
    job = pump().add("access-said", part="GUARD", element="PUMP BOLTS")

    assert undo_path(job.state, "SEAT").parts == ("GUARD", "PUMP")

    job.add("fasteners-removed", set="PUMP BOLTS", n=4, to="B1")

    assert undo_path(job.state, "SEAT").parts == ("PUMP",)


def test_a_seal_is_reached_by_taking_off_what_lies_on_it():
    job = (
        Written()
        .add("renewal-needed", renewal="SEAL", under="LID")
        .add("part-described", part="LID", minutes=3)
    )

    path = undo_path(job.state, "SEAL")

    assert (path.parts, path.minutes) == (("LID",), 3)


def test_minutes_that_nobody_gave_are_named_as_a_guess():
    path = undo_path(Written().add("access-said", part="LID", element="NUT").state, "NUT")

    assert path.guessed == ("LID",) and path.minutes == 10


def test_what_must_be_on_first_for_its_shape_comes_off_last():
    job = Written().add("access-said", part="ELBOW", element="NUT")
    job.add("access-said", part="BRACKET", element="ELBOW", shape_only=True)

    assert undo_path(job.state, "NUT").parts == ("BRACKET", "ELBOW")


def test_a_map_that_contradicts_itself_is_named_and_not_guessed_at():
    job = (
        Written()
        .add("access-said", part="COVER", element="PUMP")
        .add("access-said", part="PUMP", element="COVER")
    )

    path = undo_path(job.state, "PUMP")

    assert path.parts == () and not path.proven
    assert (
        "PUMP must come off before COVER" in path.sentence
        or "COVER must come off before PUMP" in path.sentence
    )


def test_takes_the_route_that_does_not_run_in_a_circle():
    job = Written().add("access-said", part="COVER", element="PUMP", route="top")
    job.add("access-said", part="PUMP", element="COVER").add(
        "access-said", part="PAN", element="PUMP", route="below"
    )

    assert undo_path(job.state, "PUMP").parts == ("PAN",)


def test_looks_and_tests_that_prove_nothing_afterwards_are_named():
    path = undo_path(job_of(scenario("C0")), "PUMP")

    assert path.parts == ("COVER",)
    assert path.again == ("LOOK UNDER COVER",)

    job = (
        pump()
        .add("test-described", test="RUN", scope=["PUMP BOLTS"])
        .add("test-run", test="RUN", passed=True)
    )

    assert undo_path(job.state, "SEAT").again == ("RUN",)


def test_an_opening_made_by_taking_a_part_off_comes_open_again_with_it():
    out = Journal()
    out.add("opening-opened", DAY_ONE, opening="INTAKE", by_taking_off="MANIFOLD")
    out.add("part-removed", DAY_ONE, part="MANIFOLD")
    out.add("part-fitted", DAY_ONE + timedelta(hours=1), part="MANIFOLD")
    out.add("opening-closed", DAY_ONE + timedelta(hours=1), opening="INTAKE")
    out.add("access-said", DAY_ONE, part="MANIFOLD", element="SENSOR", strength=3)
    out.add("connection-parted", DAY_ONE + timedelta(hours=2), connection="SENSOR")

    path = undo_path(replay([entry_from(raw) for raw in out.entries], "job 1"), "SENSOR")

    assert path.parts == ("MANIFOLD",)
    assert path.openings == ("INTAKE",)
