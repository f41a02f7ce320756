"""A set of fasteners as the fold knows it: its holes, what is in them and how tight."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from enum import IntEnum
from typing import NamedTuple, TypeVar, cast
from uuid import UUID

from ..journal.fastener_type import FastenerType
from ..journal.fasteners import FastenersFoundBad, FastenersTightened, SetDescribed
from ..journal.specification import SpecEntered, SpecSuperseded

LAST = 2**63
"""Behind every act of a moment: what was written late in that moment counts as written after it."""


class Act(NamedTuple):
    """Who did what when: the trace of one entry; `nth` is its place in the job, should times be equal.

    `written` is when it was written down, where that was later.
    """

    time: datetime
    by: str
    entry: UUID
    kind: str
    photos: tuple[str, ...] = ()
    nth: int = 0
    written: datetime | None = None

    @property
    def id(self) -> str:
        """Give the entry's id as text."""
        return str(self.entry)

    @property
    def known(self) -> tuple[datetime, int]:
        """Give from when a word could mean it; what was written late was not known before that."""
        return self.when if self.written is None else (self.written, LAST)

    @property
    def when(self) -> tuple[datetime, int]:
        """Give what acts of one job are put in order by: one minute may hold many acts."""
        return self.time, self.nth


class Reach(IntEnum):
    """How far a hole has come (practice 2.2); an untouched hole needs nothing."""

    EMPTY = 0
    PARKED = 1
    PLACED = 2
    SNUG = 3
    FINAL = 4


EMPTY, PARKED, PLACED, SNUG, FINAL = Reach
"""Its members by name: looking one up in the enumeration costs ten times as much, and holes are many."""


class Pull(NamedTuple):
    """One stage pulled on one hole."""

    act: Act
    entry: FastenersTightened


Turn = tuple[tuple[int, ...], Pull]
"""Holes in the order in which one entry pulled them."""


@dataclass(slots=True)
class Hole:
    """One numbered place: what is in it and how tight.

    `pulls` holds the stages that stand; `tools` the last pull of each stage even if undone since: only
    repeating a stage cures a wrong tool (practice C18). `reuses` counts how often a used piece went back in
    since a new one did. `worked` is when it was last fitted or slackened: what locks it must be newer.
    `by_count` tells that an entry gave a number and no holes, and this hole was taken for one of those: a
    later entry may name another (state/guessed.py). `never_there` tells that it was empty when found, and
    that nothing was fitted since.
    """

    number: int
    touched: bool = False
    reach: Reach = FINAL
    type: FastenerType | None = None
    new: bool = False
    reused: bool = False
    reuses: int = 0
    loose: Act | None = None
    undone: Act | None = None
    pulls: dict[int, Pull] = field(default_factory=dict)
    tools: dict[int, Pull] = field(default_factory=dict)
    fitted: Act | None = None
    worked: Act | None = None
    by_count: bool = False
    never_there: bool = False

    def forget_pulls(self) -> None:
        """Let no tightening stand: the hole was opened up."""
        if self.pulls:
            self.pulls = {}


class Stages(NamedTuple):
    """Which stages a specification asks of the holes that it names, and which of all others."""

    spec: SpecEntered | None
    of: dict[int, tuple[int, ...]]
    elsewhere: tuple[int, ...]


@dataclass(slots=True)
class FastenerSet:
    """A set of n alike that hold one part.

    `passes` holds, stage by stage, the order of the last whole pass: holes in their order, pull by pull;
    `running` that of one that is not whole yet.
    """

    name: str
    described: SetDescribed | None = None
    holes: dict[int, Hole] = field(default_factory=dict)
    spec: SpecEntered | None = None
    spec_act: Act | None = None
    spec_checked_by: set[str] = field(default_factory=set)
    superseded: SpecSuperseded | None = None
    superseded_act: Act | None = None
    removed: list[Act] = field(default_factory=list)
    fitted_by: set[str] = field(default_factory=set)
    done: list[Act] = field(default_factory=list)
    unknown_since: Act | None = None
    captive_open: int = 0
    captive_act: Act | None = None
    found_bad: list[tuple[Act, FastenersFoundBad]] = field(default_factory=list)
    locking: list[tuple[Act, str, int, tuple[int, ...]]] = field(default_factory=list)
    compound: Act | None = None
    slackened: Act | None = None
    witness: int = 0
    tightened: list[Pull] = field(default_factory=list)
    passes: dict[int, list[Turn]] = field(default_factory=dict)
    running: dict[int, list[Turn]] = field(default_factory=dict)
    last_final: Act | None = None
    remembered: dict[str, object] = field(default_factory=dict)
    _stages: Stages | None = field(default=None, repr=False, compare=False)

    @property
    def n(self) -> int:
        """How many holes the set has."""
        return self.described.n if self.described else len(self.holes)

    @property
    def critical(self) -> bool:
        """Whether a failure here hurts."""
        return bool(self.described and self.described.critical)

    @property
    def stage_count(self) -> int:
        """How many passes the specification asks for."""
        return _stage_count(self.spec)

    def hole(self, number: int) -> Hole:
        """Give a hole, made on first mention."""
        hole = self.holes.get(number)
        if hole is None:
            hole = self.holes[number] = Hole(number)
        return hole

    def stages_of(self, hole: int) -> tuple[int, ...]:
        """List the stages that a hole goes through; a stage may be for some holes only. Never empty."""
        known = self._stages
        if known is None or known.spec is not self.spec:
            known = self._stages = _stages_in(self.spec)
        return known.of.get(hole, known.elsewhere)

    def stage_meant(self, hole: int, said: int | None) -> int:
        """Give the stage of a hole that an entry means: its last if none is said, or the next."""
        owed = self.stages_of(hole)
        return next((stage for stage in owed if said is not None and stage >= said), owed[-1])

    @property
    def has_value(self) -> bool:
        """Whether a torque or angle is owed."""
        return self.spec is not None and not self.spec.hand_tight

    @property
    def goes_as_one(self) -> bool:
        """Whether undoing one fastener undoes the confirmations of all: a seal, or several passes."""
        if self.described and self.described.each_alone:
            return False
        return bool(self.described and self.described.gasketed) or self.stage_count > 1

    def wanted(self, hole: int) -> FastenerType | None:
        """Give the type wanted in a hole, if the set says so."""
        if self.described is None:
            return None
        return self.described.types.get(hole, self.described.type)

    def of_reach(self, *reaches: Reach) -> list[Hole]:
        """List touched holes at these reaches."""
        return [h for h in self.holes.values() if h.touched and h.reach in reaches]


def _stage_count(spec: SpecEntered | None) -> int:
    return max(spec.stage_count, len(spec.stages), 1) if spec else 1


def _stages_in(spec: SpecEntered | None) -> Stages:
    last = _stage_count(spec)
    rows = spec.stages if spec else ()
    asked = [row.holes for row in rows] + [()] * (last - len(rows))
    elsewhere = tuple(k for k, holes in enumerate(asked, 1) if not holes) or (last,)
    named = {hole for holes in asked for hole in holes}
    of = {n: tuple(k for k, holes in enumerate(asked, 1) if not holes or n in holes) for n in named}
    return Stages(spec, of, elsewhere)


Said = TypeVar("Said")


def remembered(ask: Callable[[FastenerSet], Said]) -> Callable[[FastenerSet], Said]:
    """Keep what a question about a set gave until an entry touches that set again.

    Only for questions that look at nothing but the set, and whose answers nobody changes.
    """
    name = f"{ask.__module__}.{ask.__qualname__}"

    def answer(group: FastenerSet) -> Said:
        kept = group.remembered
        if name not in kept:
            kept[name] = ask(group)
        return cast("Said", kept[name])

    answer.__doc__ = ask.__doc__
    return answer


@remembered
def was_touched(group: FastenerSet) -> bool:
    """Tell whether any hole of a set was touched in this job."""
    return any(hole.touched for hole in group.holes.values())
