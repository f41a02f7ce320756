"""The undo path: the cheapest way back to something found unfinished under what is on (practice 2.4)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from ..said import joined, said
from ..state.fastener_set import FastenerSet, Reach
from ..state.job import Job
from .access import AccessMap, access_map, cycles
from .way_in import Ground, cheapest_way

PROVEN = "To get at {thing} take off {way}: {minutes} min, spends {spent}."
UNPROVEN = "To get at {thing} take off {way}: {minutes} min, spends {spent}. Not proven shortest."
RENEWAL_MINUTES = 15.0
"""Cost of a renewal that is spent again; a guess, to be tuned."""
SINGLE_USE_MINUTES = 60.0
"""Cost of a single-use set that is spent; a guess, to be tuned."""
UNKNOWN_PART_MINUTES = 10.0
"""Off and on of a part for which nobody gave minutes; a guess."""


class InTheWay(NamedTuple):
    """A part that somebody guessed to be over a thing; too weak to count, good to know."""

    part: str
    element: str
    strength: int


@dataclass(frozen=True, slots=True)
class UndoPath:
    """What to take off to get at `element`, in order, and what that costs.

    `minutes` is off and on of the parts; `cost` adds 15 min a renewal and 60 min a single-use set spent.
    `again` names hold points and function tests that must be gone through again.
    `torques` pairs each set whose tightenings die with how many holes lose theirs. `guessed` names the parts
    whose minutes nobody gave. With a `contradiction` there is no way, and it says why.
    """

    element: str
    parts: tuple[str, ...] = ()
    undone: tuple[str, ...] = ()
    minutes: float = 0.0
    cost: float = 0.0
    renewals: tuple[str, ...] = ()
    single_use: tuple[str, ...] = ()
    openings: tuple[str, ...] = ()
    torques: tuple[tuple[str, int], ...] = ()
    in_the_way: tuple[InTheWay, ...] = ()
    again: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()
    proven: bool = True
    contradiction: str = ""

    @property
    def sentence(self) -> str:
        """Say the path in one sentence.

        >>> UndoPath("SENSOR BOLT", ("HEAT SHIELD", "STARTER"), minutes=24).sentence
        'To get at SENSOR BOLT take off HEAT SHIELD, then STARTER: 24 min, spends nothing.'
        """
        if self.contradiction:
            return self.contradiction
        if not self.parts:
            return said("Nothing that is on lies over {thing}.", thing=self.element)
        return said(
            PROVEN if self.proven else UNPROVEN,
            thing=self.element,
            way=joined(", then ", self.parts),
            minutes=f"{self.minutes:g}",
            spent=", ".join((*self.renewals, *self.single_use)) or said("nothing"),
        )


def undo_path(job: Job, element: str) -> UndoPath:
    """Find the cheapest way back to an element: a set, part, renewal or any other name on the map."""
    drawn = access_map(job)
    names = [element, *drawn.nodes]
    way = cheapest_way(_ground(job, drawn, element=element, names=names), element)
    if way is None:
        said = " ".join(cycle.sentence for cycle in cycles(drawn))
        why = said or "every way in runs in a circle"
        return UndoPath(
            element, proven=False, contradiction=f"No way to {element} can be worked out. {why}".strip()
        )
    return _path(job, drawn, element, parts=way.parts, proven=way.proven)


def _ground(job: Job, drawn: AccessMap, *, element: str, names: Iterable[str]) -> Ground:
    """Leave of the map what is in the way now: parts that are on, sets that still hold."""
    parts = [name for name in names if is_on(job, name)]
    routes = {name: _open_routes(job, drawn, name) for name in names}
    over = _part_over_renewal(job, element)
    if over is not None:
        routes[element] = (frozenset({over}),)
        parts.append(over)
    return Ground(
        routes={name: ways for name, ways in routes.items() if ways},
        needs={part: tuple(h for h in drawn.holders(part) if still_holds(job, h)) for part in parts},
        later={part: tuple(q for q in drawn.later(part) if is_on(job, q)) for part in parts},
        price={part: _price(job, part) for part in parts},
        rank={part: _last_on_first(job, part) for part in parts},
    )


def is_on(job: Job, part: str) -> bool:
    """Tell whether a part is on; what was never mentioned is on."""
    return part not in job.parts or job.parts[part].on


def still_holds(job: Job, name: str) -> bool:
    """Tell whether a set or connection still holds its part: some fastener in, not apart."""
    if name in job.connections and name not in job.sets:
        return job.connections[name].apart is None
    group = job.sets.get(name)
    return group is None or not group.holes or any(h.reach is not Reach.EMPTY for h in group.holes.values())


def _open_routes(job: Job, drawn: AccessMap, name: str) -> tuple[frozenset[str], ...]:
    """Give the ways to a thing by the parts that shut them now; none when one way is open."""
    ways = [frozenset(p for p in parts if is_on(job, p)) for parts in drawn.routes(name).values()]
    return () if not all(ways) else tuple(dict.fromkeys(ways))


def _part_over_renewal(job: Job, element: str) -> str | None:
    renewal = job.renewals.get(element)
    under = renewal.needed.under if renewal and renewal.needed else None
    return under if under and under != element and is_on(job, under) else None


def _last_on_first(job: Job, part: str) -> float:
    on_at = job.parts[part].on_at if part in job.parts else None
    return -on_at.time.timestamp() if on_at else 0.0


def holding_sets(job: Job, part: str) -> Iterator[FastenerSet]:
    """Give the sets that hold a part and are not wholly out."""
    for group in job.sets.values():
        if group.described and group.described.part == part and still_holds(job, group.name):
            yield group


def minutes_of(job: Job, part: str) -> float | None:
    """Give the minutes to take a part off and put it back: its own, else its sets'; None when nobody said."""
    here = job.parts.get(part)
    if here and here.described and here.described.minutes is not None:
        return here.described.minutes
    said = [g.described.minutes for g in job.sets.values() if g.described and g.described.part == part]
    given = [minutes for minutes in said if minutes is not None]
    return sum(given) if given else None


def renewals_spent(job: Job, part: str) -> tuple[str, ...]:
    """Name what must be renewed again when a part comes off, a seal that nobody listed among them."""
    sets = [group.name for group in holding_sets(job, part)]
    listed = [r for r in job.renewals.values() if r.needed and r.needed.under == part]
    listed += [r for r in job.renewals.values() if r.needed and r.needed.set in sets and r not in listed]
    spent = [r.name for r in listed if r.needed and r.fitted and not r.needed.reuse_allowed]
    if not any(r.needed and r.needed.under == part for r in listed):
        spent += [f"the seal under {part}"] * any(
            g.described and g.described.gasketed for g in holding_sets(job, part)
        )
    return tuple(spent)


def single_use_spent(job: Job, part: str) -> tuple[str, ...]:
    """Name the sets on a part that may be used once only."""
    return tuple(
        group.name
        for group in holding_sets(job, part)
        if group.described and group.described.single_use and not group.described.reuses_allowed
    )


def _price(job: Job, part: str) -> float:
    minutes = minutes_of(job, part)
    return (
        (UNKNOWN_PART_MINUTES if minutes is None else minutes)
        + RENEWAL_MINUTES * len(renewals_spent(job, part))
        + SINGLE_USE_MINUTES * len(single_use_spent(job, part))
    )


def _path(job: Job, drawn: AccessMap, element: str, *, parts: tuple[str, ...], proven: bool) -> UndoPath:
    known = {part: minutes_of(job, part) for part in parts}
    sets = [group for part in parts for group in holding_sets(job, part)]
    undone = [h for p in parts for h in drawn.holders(p) if still_holds(job, h)]
    undone += [group.name for group in sets if group.name not in undone]
    pulled = [(g.name, sum(1 for h in g.holes.values() if h.touched and h.pulls)) for g in sets]
    reached = dict.fromkeys([element, *parts, *undone])
    return UndoPath(
        element,
        parts,
        tuple(undone),
        minutes=sum(UNKNOWN_PART_MINUTES if m is None else m for m in known.values()),
        cost=sum(_price(job, part) for part in parts),
        renewals=tuple(name for part in parts for name in renewals_spent(job, part)),
        single_use=tuple(name for part in parts for name in single_use_spent(job, part)),
        openings=_opened_again(job, drawn, parts),
        torques=tuple((name, n) for name, n in pulled if n),
        in_the_way=_maybe_in_the_way(job, drawn, reached, parts=parts),
        again=_again(job, parts, undone),
        guessed=tuple(part for part, m in known.items() if m is None),
        proven=proven,
    )


def _opened_again(job: Job, drawn: AccessMap, parts: tuple[str, ...]) -> tuple[str, ...]:
    """Name the openings opened in this job and shut since that come open with the parts or lie under them."""
    return tuple(
        opening.name
        for opening in job.openings.values()
        if opening.open_since is None
        and opening.bare
        and (
            opening.taken_off_with in parts
            or any(set(way) & set(parts) for way in drawn.routes(opening.name).values())
        )
    )


def _again(job: Job, parts: Iterable[str], undone: Iterable[str]) -> tuple[str, ...]:
    """Name the looks and tests that were had, and prove nothing once these things are touched."""
    touched = {*parts, *undone}
    holds = [hold.name for hold in job.holds.values() if hold.released and hold.before in touched]
    tests = [test.name for test in job.tests.values() if test.run and touched & set(test.scope)]
    return (*holds, *tests)


def _maybe_in_the_way(
    job: Job, drawn: AccessMap, reached: Iterable[str], *, parts: tuple[str, ...]
) -> tuple[InTheWay, ...]:
    found = []
    for thing in reached:
        for edge in drawn.guessed(thing):
            part = edge.source if edge.target == thing else edge.target
            if part not in parts and is_on(job, part):
                found.append(InTheWay(part, thing, edge.strength))
    return tuple(dict.fromkeys(found))
