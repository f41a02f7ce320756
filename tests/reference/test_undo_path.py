"""The undo path and the access map against brute force over every set of parts, and against networkx.

The brute force knows nothing of routes to choose: it tries every set of parts that are on, takes off whatever
can come off, and keeps the cheapest set after which the thing can be reached (the definition of practice 2.4).
networkx (https://networkx.org, BSD) gives ancestors of a thing where no thing has two ways, and the strongly
connected components of a map that contradicts itself.
"""

from __future__ import annotations

from itertools import combinations

import networkx as nx
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from tests.report.journals import Written

from lastbolt.journal.machine import AccessSaid
from lastbolt.plan.access import access_map, cycles, stuck
from lastbolt.plan.undo import RENEWAL_MINUTES, SINGLE_USE_MINUTES, undo_path
from lastbolt.plan.way_in import Ground, cheapest_way
from lastbolt.state.job import Job

PARTS = ("A", "B", "C", "D", "E")
SETS = tuple(f"{part} BOLTS" for part in PARTS)
THING = "NUT"
QUICK = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])

routes = st.sampled_from([None, "top", "below"])
hiding = st.tuples(st.sampled_from(PARTS), st.sampled_from((THING, *SETS, *PARTS)), routes, st.integers(0, 3))
shaping = st.tuples(st.sampled_from(PARTS), st.sampled_from(PARTS))


@st.composite
def machines(draw: st.DrawFn, ways: bool = True) -> Job:
    job = Written()
    for number, (part, bolts) in enumerate(zip(PARTS, SETS, strict=True)):
        job.add("part-described", part=part, minutes=draw(st.integers(0, 40)))
        job.add("set-described", set=bolts, n=2, part=part, single_use=draw(st.booleans()) and number < 2)
        if draw(st.booleans()):
            job.add("renewal-needed", renewal=f"{part} SEAL", under=part).add(
                "renewal-fitted", renewal=f"{part} SEAL"
            )
    for part, element, route, strength in draw(st.lists(hiding, min_size=1, max_size=10)):
        job.add("access-said", part=part, element=element, route=route if ways else None, strength=strength)
    for first, then in draw(st.lists(shaping, max_size=2)):
        if first != then:
            job.add("access-said", part=then, element=first, shape_only=True)
    for part in draw(st.lists(st.sampled_from(PARTS), max_size=2, unique=True)):
        job.add("fasteners-removed", set=f"{part} BOLTS", n=2, to="TRAY")
        if draw(st.booleans()):
            job.add("part-removed", part=part)
    return job.state


def strong(job: Job) -> list[AccessSaid]:
    return [edge for edge in job.access if edge.strength >= 2]


def is_reached(job: Job, thing: str, on: set[str]) -> bool:
    ways: dict[str | None, list[str]] = {}
    for edge in strong(job):
        if edge.element == thing and not edge.shape_only:
            ways.setdefault(edge.route, []).append(edge.part)
    return not ways or any(not on & set(parts) for parts in ways.values())


def can_come_off(job: Job, part: str, on: set[str]) -> bool:
    bolts = job.sets[f"{part} BOLTS"]
    held = any(hole.reach > 0 for hole in bolts.holes.values())
    later = {edge.part for edge in strong(job) if edge.shape_only and edge.element == part}
    return is_reached(job, part, on) and not later & on and (not held or is_reached(job, bolts.name, on))


def price(job: Job, part: str) -> float:
    bolts, seal = job.sets[f"{part} BOLTS"], job.renewals.get(f"{part} SEAL")
    held = any(hole.reach > 0 for hole in bolts.holes.values())
    once = bool(bolts.described and bolts.described.single_use) and held
    return (job.parts[part].described.minutes or 0) + 15 * bool(seal and seal.fitted) + 60 * once


def brute_force(job: Job) -> float | None:
    on = {part for part in PARTS if job.parts[part].on}
    costs = []
    for size in range(len(on) + 1):
        for chosen in combinations(sorted(on), size):
            left, still = set(chosen), set(on)
            while ready := {p for p in left if can_come_off(job, p, still)}:
                left -= ready
                still -= ready
            if not left and is_reached(job, THING, still):
                costs.append(sum(price(job, part) for part in chosen))
    return min(costs, default=None)


def test_the_costs_are_those_of_the_trade_study():
    assert (RENEWAL_MINUTES, SINGLE_USE_MINUTES) == (15, 60)


@QUICK
@given(machines())
def test_no_set_of_parts_is_cheaper(job: Job):
    path, best = undo_path(job, THING), brute_force(job)

    assert (None if path.contradiction else path.cost) == best
    assert path.proven == (best is not None)


@QUICK
@given(machines())
def test_each_part_can_come_off_when_its_turn_comes(job: Job):
    path = undo_path(job, THING)
    on = {part for part in PARTS if job.parts[part].on}
    for part in path.parts:
        assert can_come_off(job, part, on)
        on.remove(part)

    assert path.contradiction or is_reached(job, THING, on)


def waiting(job: Job) -> nx.DiGraph:
    """Every part and set with an arrow to whatever must come off before it, on a whole machine."""
    graph = nx.DiGraph()
    graph.add_nodes_from([THING, *PARTS, *SETS])
    for edge in strong(job):
        graph.add_edge(edge.element, edge.part)
    graph.add_edges_from((part, f"{part} BOLTS") for part in PARTS)
    return graph


@QUICK
@given(machines(ways=False))
def test_without_a_choice_it_is_what_networkx_finds_before_the_thing(job: Job):
    on = {part for part in PARTS if job.parts[part].on}
    graph = waiting(job)
    graph.remove_nodes_from(set(PARTS) - on)
    graph.remove_nodes_from([s for s in SETS if all(h.reach == 0 for h in job.sets[s].holes.values())])
    before = nx.descendants(graph, THING)
    assume(nx.is_directed_acyclic_graph(graph.subgraph(before | {THING})))

    assert set(undo_path(job, THING).parts) == before & on


@QUICK
@given(machines(ways=False))
def test_knots_are_the_strongly_connected_components_of_networkx(job: Job):
    graph = waiting(job)
    knots = [k for k in nx.strongly_connected_components(graph) if len(k) > 1 or graph.has_edge(*list(k) * 2)]
    found = cycles(access_map(job))
    ends = set().union(*knots) if knots else set()

    assert len(found) == len(knots)
    assert all(any(set(cycle.things) <= knot for knot in knots) for cycle in found)
    assert stuck(access_map(job)) == {n for n in graph if n in ends or nx.descendants(graph, n) & ends}


def ladder(rungs: int) -> Ground:
    """A thing under `rungs` covers in a row, each with two parts to choose from: 2 ** rungs ways."""
    things = [f"thing {n}" for n in range(rungs + 1)]
    chosen = {
        f"{side} {n}": float(n % 3 + (side == "right")) for n in range(rungs) for side in ("left", "right")
    }
    return Ground(
        routes={things[n]: (frozenset({f"left {n}"}), frozenset({f"right {n}"})) for n in range(rungs)},
        needs={part: (things[int(part.split()[1]) + 1],) for part in chosen},
        later={},
        price=chosen,
    )


def test_all_of_4096_ways_are_looked_at_and_the_cheapest_is_proven():
    way = cheapest_way(ladder(12), "thing 0")

    assert way is not None and way.proven
    assert set(way.parts) == {f"left {n}" for n in range(12)}


def test_past_the_limit_a_way_is_still_given_and_said_not_to_be_proven():
    rungs = 40
    ground = ladder(rungs)
    even = Ground(ground.routes, ground.needs, {}, dict.fromkeys(ground.price, 1.0))
    way = cheapest_way(even, "thing 0")

    assert way is not None and len(way.parts) == rungs and not way.proven
