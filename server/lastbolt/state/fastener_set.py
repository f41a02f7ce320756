"""A set of fasteners as the fold knows it: its holes, what is in them and how tight."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from enum import IntEnum
from typing import NamedTuple, TypeVar, cast

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
    id: str
    kind: str
    photos: tuple[str, ...] = ()
    nth: int = 0
    written: datetime | None = None

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


class Pull(NamedTuple):
    """One stage pulled on one hole."""

    act: Act
    entry: FastenersTightened


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
    reach: Reach = Reach.FINAL
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
        self.pulls = {}


@dataclass(slots=True)
class FastenerSet:
    """A set of n alike that hold one part.

    `passes` holds, stage by stage, the order of the last whole pass: hole and pull; `running` that of one
    that is not whole yet.
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
    passes: dict[int, list[tuple[int, Pull]]] = field(default_factory=dict)
    running: dict[int, list[tuple[int, Pull]]] = field(default_factory=dict)
    last_final: Act | None = None
    remembered: dict[str, object] = field(default_factory=dict)
    _stages: tuple[SpecEntered | None, dict[int, tuple[int, ...]]] = field(
        default_factory=lambda: (None, {}), repr=False, compare=False
    )

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

    def stages_of(self, hole: int) -> tuple[int, ...]:
        """List the stages that a hole goes through; a stage may be for some holes only. Never empty."""
        spec, known = self._stages
        if spec is not self.spec:
            spec, known = self._stages = (self.spec, {})
        stages = known.get(hole)
        if stages is None:
            stages = known[hole] = _stages_in(spec, hole)
        return stages

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


def _stages_in(spec: SpecEntered | None, hole: int) -> tuple[int, ...]:
    rows = spec.stages if spec else ()
    last = _stage_count(spec)
    if not any(row.holes for row in rows):
        return tuple(range(1, last + 1))
    asked = [row.holes for row in rows] + [()] * (last - len(rows))
    return tuple(k for k, holes in enumerate(asked, 1) if not holes or hole in holes) or (last,)


Said = TypeVar("Said")


def remembered(ask: Callable[[FastenerSet], Said]) -> Callable[[FastenerSet], Said]:
    """Keep what a question about a set gave until an entry touches that set again.

    Only for questions that look at nothing but the set, and whose answers nobody changes.
    """
    name = f"{ask.__module__}.{ask.__qualname__}"

    def answer(group: FastenerSet) -> Said:
        if name not in group.remembered:
            group.remembered[name] = ask(group)
        return cast(Said, group.remembered[name])

    answer.__doc__ = ask.__doc__
    return answer


@remembered
def was_touched(group: FastenerSet) -> bool:
    """Tell whether any hole of a set was touched in this job."""
    return any(hole.touched for hole in group.holes.values())
