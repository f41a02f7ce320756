"""The cheapest way in through what lies over a thing, where there may be several routes."""

from __future__ import annotations

import heapq
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

COMBINATIONS = 4_096
EXPANSIONS = 2 * COMBINATIONS
"""Choices looked at before a way is called not proven shortest: all of up to 4,096 combinations of routes."""


@dataclass(frozen=True, slots=True)
class Ground:
    """What lies in the way now, by name; things that are not keys are free.

    `routes`: thing -> its ways, each the parts that shut it. `needs`: part -> what must be reached before it
    comes off. `later`: part -> parts that come off before it. `price`: part -> cost of taking it off and
    putting it back. `rank`: part -> place in the order where several could come off next.
    """

    routes: Mapping[str, tuple[frozenset[str], ...]]
    needs: Mapping[str, tuple[str, ...]]
    later: Mapping[str, tuple[str, ...]]
    price: Mapping[str, float]
    rank: Mapping[str, float] = field(default_factory=dict)


class Way(NamedTuple):
    """Parts in the order in which they come off, and whether nothing cheaper can exist."""

    parts: tuple[str, ...]
    proven: bool


class _Choice(NamedTuple):
    off: frozenset[str]
    taken: dict[str, frozenset[str]]
    todo: tuple[str, ...]


def cheapest_way(ground: Ground, thing: str) -> Way | None:
    """Find the cheapest parts to take off to reach a thing; None when every way runs in a circle.

    Best first by cost so far, which never falls as parts are added: the first whole way that comes up is the
    cheapest. Past the limit the search goes deep instead of wide, and says that its way is not proven.
    """
    queue: list[tuple[tuple[float, ...], int, _Choice]] = []
    start = _Choice(frozenset(), {}, (thing,))
    heapq.heappush(queue, ((0.0,), 0, start))
    looked = made = 0
    while queue and looked < 2 * EXPANSIONS:
        _, _, choice = heapq.heappop(queue)
        looked += 1
        if looked == EXPANSIONS:
            queue = [(_deep(ground, c), n, c) for _, n, c in queue]
            heapq.heapify(queue)
        if not choice.todo:
            order = _order(ground, choice)
            if order is not None:
                return Way(order, proven=looked < EXPANSIONS)
            continue
        for following in _followed(ground, choice):
            made += 1
            key = _deep(ground, following) if looked >= EXPANSIONS else _wide(ground, following)
            heapq.heappush(queue, (key, made, following))
    return None


def _wide(ground: Ground, choice: _Choice) -> tuple[float, ...]:
    return (sum(ground.price[part] for part in choice.off), len(choice.off))


def _deep(ground: Ground, choice: _Choice) -> tuple[float, ...]:
    return (-len(choice.taken), *_wide(ground, choice))


def _followed(ground: Ground, choice: _Choice) -> list[_Choice]:
    """Reach the next thing still to do by each of its ways; free things in between cost no choice."""
    todo = list(choice.todo)
    while todo:
        thing = todo.pop(0)
        ways = ground.routes.get(thing, ())
        if thing not in choice.taken and ways:
            return [_by_way(ground, choice, thing, way=way, todo=todo) for way in ways]
    return [_Choice(choice.off, choice.taken, ())]


def _by_way(ground: Ground, choice: _Choice, thing: str, *, way: frozenset[str], todo: list[str]) -> _Choice:
    off = set(choice.off)
    more = list(todo)
    queue = sorted(way - off)
    while queue:
        part = queue.pop()
        if part in off:
            continue
        off.add(part)
        more += [part, *ground.needs.get(part, ())]
        queue += ground.later.get(part, ())
    return _Choice(frozenset(off), {**choice.taken, thing: way}, tuple(more))


def _order(ground: Ground, choice: _Choice) -> tuple[str, ...] | None:
    """Put the parts of a way in an order in which each can come off; None when there is none."""
    waits = {part: _first(ground, choice, part) for part in choice.off}
    order: list[str] = []
    while len(order) < len(waits):
        done = set(order)
        ready = [p for p, first in waits.items() if p not in done and first <= done]
        if not ready:
            return None
        order.append(min(ready, key=lambda p: (ground.rank.get(p, 0.0), p)))
    return tuple(order)


def _first(ground: Ground, choice: _Choice, part: str) -> set[str]:
    """Name what must be off before a part, by the ways taken."""
    first = set(ground.later.get(part, ()))
    for thing in (part, *ground.needs.get(part, ())):
        first |= choice.taken.get(thing, frozenset())
    return first
