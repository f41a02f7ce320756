"""The access map: what holds and hides what, and where it contradicts itself."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.plan.access import Cycle, Edge, EdgeKind, NodeKind, access_map, cycles, stuck


def test_draws_parts_sets_connections_and_their_edges():
    drawn = access_map(job_of(scenario("S7")))

    assert drawn.nodes["MANIFOLD"] == (NodeKind.PART,)
    assert drawn.nodes["SENSOR BOLT"] == (NodeKind.SET,)
    assert drawn.nodes["FUEL PIPE"] == (NodeKind.CONNECTION,)
    assert set(drawn.holders("MANIFOLD")) == {"MANIFOLD BOLTS", "FUEL PIPE"}
    assert drawn.routes("SENSOR BOLT") == {"top": ("MANIFOLD",), "below": ("STARTER",)}
    assert Edge(EdgeKind.HIDES, "COOLER", "SHIELD BOLTS", 0, None, "final") in drawn.edges


def test_a_guessed_edge_is_on_the_map_but_shuts_no_way():
    drawn = access_map(job_of(scenario("S7")))

    assert drawn.routes("SHIELD BOLTS") == {}
    assert [edge.source for edge in drawn.guessed("SHIELD BOLTS")] == ["COOLER"]


def test_a_part_and_its_set_may_share_a_name():
    drawn = access_map(job_of(scenario("C0")))

    assert drawn.nodes["PUMP"] == (NodeKind.PART, NodeKind.SET)
    assert drawn.holders("PUMP") == () and stuck(drawn) == frozenset()


def test_no_scenario_s_map_contradicts_itself():
    for name in ("S1", "S2", "S3", "S4", "S5", "S7", "C0"):
        assert cycles(access_map(job_of(scenario(name)))) == ()


def test_names_a_cycle_plainly():
    job = Written().add("set-described", set="PUMP BOLTS", n=4, part="PUMP")
    job.add("access-said", part="PUMP", element="PUMP BOLTS")

    (cycle,) = cycles(access_map(job.state))

    assert set(cycle.things) == {"PUMP", "PUMP BOLTS"}
    assert cycle.sentence.endswith(": one of these was said wrong.")


def test_a_cycle_with_a_way_round_it_is_no_contradiction():
    job = (
        Written()
        .add("access-said", part="A", element="B", route="top")
        .add("access-said", part="B", element="A")
    )
    job.add("access-said", part="C", element="B", route="side")

    assert cycles(access_map(job.state)) == ()


def test_each_knot_is_named_once_and_what_only_hangs_on_it_is_not():
    job = Written().add("access-said", part="A", element="B").add("access-said", part="B", element="A")
    job.add("access-said", part="A", element="HANGER").add("access-said", part="C", element="D")
    job.add("access-said", part="D", element="E").add("access-said", part="E", element="C")

    found = cycles(access_map(job.state))

    assert {frozenset(cycle.things) for cycle in found} == {frozenset("AB"), frozenset("CDE")}


def test_each_link_of_a_cycle_says_who_comes_off_first():
    job = Written().add("access-said", part="C", element="B").add("access-said", part="B", element="A")
    job.add("access-said", part="A", element="C")

    (cycle,) = cycles(access_map(job.state))
    links = set(zip(cycle.things, (*cycle.things[1:], cycle.things[0]), strict=True))

    assert links == {("C", "B"), ("B", "A"), ("A", "C")}
    assert Cycle(("C", "B", "A")).sentence.startswith("C must come off before B, B before A, A before C")
