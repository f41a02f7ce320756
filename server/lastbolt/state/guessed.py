"""Which holes a count meant: a later entry that names holes says so (practice 2.2)."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from .fastener_set import EMPTY, FINAL, PARKED, FastenerSet, Hole

Asks = Callable[[Hole], bool]


def settle(group: FastenerSet, named: Iterable[int], *, fits: Asks, gives: Asks) -> None:
    """Let named holes change places with holes that were only counted.

    A hole that does not answer to `fits` trades what is known of it with one that was taken by count and
    answers to `gives`. Holes for which different types are wanted never trade.
    """
    numbers = set(named)
    for number in sorted(numbers & group.holes.keys()):
        here = group.holes[number]
        if not fits(here):
            others = (h for h in group.holes.values() if _may_trade(group, here, h, numbers))
            other = next((h for h in others if gives(h)), None)
            if other is not None:
                _trade(group, here, other)
        group.holes[number].by_count = False


def settle_open(group: FastenerSet, named: Iterable[int]) -> None:
    """Fasteners go into named holes: those were the ones that a count before took out."""
    settle(group, named, fits=lambda h: h.touched or _is_open(h), gives=lambda h: h.by_count and _is_open(h))


def settle_full(group: FastenerSet, named: Iterable[int]) -> None:
    """Fasteners come out of named holes: a count before took them out of others."""
    settle(
        group,
        named,
        fits=lambda h: not (h.by_count and _is_open(h)),
        gives=lambda h: not h.touched and not _is_open(h),
    )


def settle_slack(group: FastenerSet, named: Iterable[int]) -> None:
    """Named holes are tightened: those were the ones that a count before opened or slackened."""
    settle(
        group, named, fits=lambda h: h.touched or _is_open(h), gives=lambda h: h.by_count and not _is_tight(h)
    )


def _is_open(hole: Hole) -> bool:
    return hole.reach in (EMPTY, PARKED)


def _is_tight(hole: Hole) -> bool:
    return hole.reach is FINAL and hole.loose is None and hole.undone is None


def _may_trade(group: FastenerSet, here: Hole, other: Hole, numbers: set[int]) -> bool:
    return other.number not in numbers and group.wanted(here.number) == group.wanted(other.number)


def _trade(group: FastenerSet, here: Hole, other: Hole) -> None:
    here.number, other.number = other.number, here.number
    group.holes[here.number], group.holes[other.number] = here, other
