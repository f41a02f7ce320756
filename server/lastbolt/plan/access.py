"""The access map of a job: what hides, what holds, what must be on first (practice 2.4)."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from ..state.covering import TRUSTED_STRENGTH
from ..state.job import Job


class NodeKind(StrEnum):
    """What a node of the map is."""

    PART = "part"
    SET = "set"
    CONNECTION = "connection"
    OPENING = "opening"
    OTHER = "other"


class EdgeKind(StrEnum):
    """How one thing stands in another's way.

    HIDES: with the part `source` on, `target` cannot be reached by that route.
    HOLDS: the set or connection `source` must be undone before the part `target` comes off.
    BEFORE: `source` must be on before `target`, so `target` comes off first.
    """

    HIDES = "hides"
    HOLDS = "holds"
    BEFORE = "before"


@dataclass(frozen=True, slots=True)
class Edge:
    """One line of the map; strength 3 said at the machine, 2 a checked plan, 1 a photo pair, 0 a guess."""

    kind: EdgeKind
    source: str
    target: str
    strength: int = 3
    route: str | None = None
    need: str = ""

    @property
    def is_trusted(self) -> bool:
        """Tell whether it is strong enough to rely on."""
        return self.strength >= TRUSTED_STRENGTH


@dataclass(frozen=True, slots=True)
class AccessMap:
    """Things by name with what they are, and the edges between them; a part and its set may share a name."""

    nodes: Mapping[str, tuple[NodeKind, ...]]
    edges: tuple[Edge, ...]
    into: Mapping[str, tuple[Edge, ...]]
    out_of: Mapping[str, tuple[Edge, ...]]

    def routes(self, element: str) -> dict[str | None, tuple[str, ...]]:
        """Give the ways to an element by route, each with the parts that shut it; none: it lies open."""
        ways: dict[str | None, tuple[str, ...]] = {}
        for edge in self.into.get(element, ()):
            if edge.kind is EdgeKind.HIDES and edge.is_trusted:
                ways[edge.route] = (*ways.get(edge.route, ()), edge.source)
        return ways

    def holders(self, part: str) -> tuple[str, ...]:
        """Name the sets and connections that hold a part, but for a set of the part's own name."""
        return tuple(e.source for e in self.into.get(part, ()) if e.kind is EdgeKind.HOLDS)

    def later(self, part: str) -> tuple[str, ...]:
        """Name the parts that go on after a part for their shape, and so come off before it."""
        edges = self.out_of.get(part, ())
        return tuple(e.target for e in edges if e.kind is EdgeKind.BEFORE and e.is_trusted)

    def guessed(self, element: str) -> tuple[Edge, ...]:
        """List the edges on an element that are too weak to rely on."""
        hiding = [e for e in self.into.get(element, ()) if e.kind is EdgeKind.HIDES and not e.is_trusted]
        shaping = [e for e in self.out_of.get(element, ()) if e.kind is EdgeKind.BEFORE and not e.is_trusted]
        return (*hiding, *shaping)


@dataclass(frozen=True, slots=True)
class Cycle:
    """Things of which each must come off before the next, and the last before the first."""

    things: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """Say it plainly.

        >>> Cycle(("COVER", "PUMP")).sentence
        'COVER must come off before PUMP, PUMP before COVER: one of these was said wrong.'
        """
        pairs = zip(self.things, (*self.things[1:], self.things[0]), strict=True)
        first, *rest = [(a, b) for a, b in pairs]
        said = [f"{first[0]} must come off before {first[1]}", *(f"{a} before {b}" for a, b in rest)]
        return ", ".join(said) + ": one of these was said wrong."


def access_map(job: Job) -> AccessMap:
    """Draw the map of a job from what was described and said in it."""
    edges = tuple(dict.fromkeys([*_holding(job), *_said(job)]))
    into: dict[str, list[Edge]] = defaultdict(list)
    out_of: dict[str, list[Edge]] = defaultdict(list)
    for edge in edges:
        into[edge.target].append(edge)
        out_of[edge.source].append(edge)
    known = [*job.parts, *job.sets, *job.connections, *job.openings]
    names = dict.fromkeys([*known, *(name for edge in edges for name in (edge.source, edge.target))])
    nodes = {name: _kinds_of(job, name, edges=into[name] + out_of[name]) for name in names}
    return AccessMap(
        nodes, edges, {k: tuple(v) for k, v in into.items()}, {k: tuple(v) for k, v in out_of.items()}
    )


def _holding(job: Job) -> Iterator[Edge]:
    for group in job.sets.values():
        part = group.described.part if group.described else None
        if part and part != group.name:
            yield Edge(EdgeKind.HOLDS, group.name, part)
    for connection in job.connections.values():
        part = connection.described.part if connection.described else None
        if part and part != connection.name:
            yield Edge(EdgeKind.HOLDS, connection.name, part)


def _said(job: Job) -> Iterator[Edge]:
    for said in job.access:
        if said.shape_only:
            yield Edge(EdgeKind.BEFORE, said.element, said.part, said.strength)
        else:
            yield Edge(EdgeKind.HIDES, said.part, said.element, said.strength, said.route, said.need)


def _kinds_of(job: Job, name: str, *, edges: list[Edge]) -> tuple[NodeKind, ...]:
    is_part = name in job.parts or any(
        (e.kind is EdgeKind.HIDES and e.source == name)
        or (e.kind is EdgeKind.HOLDS and e.target == name)
        or e.kind is EdgeKind.BEFORE
        for e in edges
    )
    held = (
        (NodeKind.PART, is_part),
        (NodeKind.SET, name in job.sets),
        (NodeKind.CONNECTION, name in job.connections),
        (NodeKind.OPENING, name in job.openings),
    )
    return tuple(kind for kind, holds in held if holds) or (NodeKind.OTHER,)


def stuck(drawn: AccessMap) -> frozenset[str]:
    """Name what on a whole machine could never be reached or come off: the map contradicts itself."""
    free: set[str] = set()
    while True:
        more = {name for name in drawn.nodes if name not in free and _is_free(drawn, name, free)}
        if not more:
            return frozenset(drawn.nodes.keys() - free)
        free |= more


def _is_free(drawn: AccessMap, name: str, free: set[str]) -> bool:
    ways = drawn.routes(name).values()
    reached = not ways or any(free.issuperset(parts) for parts in ways)
    return reached and free.issuperset(drawn.holders(name)) and free.issuperset(drawn.later(name))


def cycles(drawn: AccessMap) -> tuple[Cycle, ...]:
    """Find the contradictions: one cycle, the shortest, for each knot of things that wait for each other."""
    knotted = stuck(drawn)
    waits = {
        name: [
            other
            for other in sorted(
                {p for way in drawn.routes(name).values() for p in way}
                | {*drawn.holders(name), *drawn.later(name)}
            )
            if other in knotted
        ]
        for name in sorted(knotted)
    }
    found: list[Cycle] = []
    seen: set[str] = set()
    for name in waits:
        ring = None if name in seen else _ring(waits, name)
        if ring:
            found.append(Cycle(tuple(reversed(ring))))
            seen |= _knot(waits, name)
    return tuple(found)


def _ring(waits: Mapping[str, list[str]], start: str) -> list[str] | None:
    """Walk breadth first from a thing back to itself; give the things on the way, the start first."""
    came: dict[str, str | None] = {start: None}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        for other in waits[here]:
            if other == start:
                ring = [here]
                while (before := came[ring[-1]]) is not None:
                    ring.append(before)
                return ring[::-1]
            if other not in came:
                came[other] = here
                queue.append(other)
    return None


def _knot(waits: Mapping[str, list[str]], start: str) -> set[str]:
    """Give everything that waits for a thing and for which that thing waits."""
    back: dict[str, list[str]] = defaultdict(list)
    for name, others in waits.items():
        for other in others:
            back[other].append(name)
    return _walk(waits, start) & _walk(back, start)


def _walk(ways: Mapping[str, list[str]], start: str) -> set[str]:
    seen, queue = {start}, deque([start])
    while queue:
        for other in ways.get(queue.popleft(), []):
            if other not in seen:
                seen.add(other)
                queue.append(other)
    return seen
