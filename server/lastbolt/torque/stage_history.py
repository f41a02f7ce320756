"""Which stages each hole has been through, and which were skipped."""

from collections.abc import Sequence
from dataclasses import dataclass

from lastbolt.torque.specification import Specification, stage_for_hole, stage_numbers

SLACKENED = 0
"""As a stage number in a history: the holes were slackened and start again."""


@dataclass(frozen=True)
class StageDone:
    """One pass over some holes in the order done; number `SLACKENED` puts them back to nothing."""

    number: int
    holes: tuple[int, ...]


@dataclass(frozen=True)
class SkippedStage:
    """A hole that got a stage without an earlier one; `position` is the index in the history."""

    position: int
    hole: int
    done: int
    missing: tuple[int, ...]
    sentence: str


def find_skipped_stages(
    specification: Specification, history: Sequence[StageDone]
) -> tuple[SkippedStage, ...]:
    """Every hole that got a stage while one before it was missing, in the order it happened.

    Repeating the first stage starts a hole afresh. A stage that asks nothing of a hole is not missed there.
    """
    reached: dict[int, frozenset[int]] = {}
    skipped = []
    for position, done in enumerate(history):
        for hole in done.holes:
            wanted = stage_numbers(specification, hole)
            before = frozenset() if _starts_afresh(done.number, wanted) else reached.get(hole, frozenset())
            missing = tuple(number for number in wanted if number < done.number and number not in before)
            if missing and done.number != SLACKENED:
                skipped.append(_skip(position, hole, done=done.number, missing=missing))
            reached[hole] = before | ({done.number} if done.number != SLACKENED else frozenset())
    return tuple(skipped)


def open_stages(specification: Specification, history: Sequence[StageDone]) -> dict[int, tuple[int, ...]]:
    """For each hole that is not final: the stages still to pull. Empty when every hole is through.

    A later stage counts only when all before it were done since the hole was slackened or started afresh.
    """
    reached: dict[int, int] = dict.fromkeys(specification.holes, 0)
    for done in history:
        for hole in done.holes:
            wanted = stage_numbers(specification, hole)
            if _starts_afresh(done.number, wanted):
                reached[hole] = 0
            following = tuple(number for number in wanted if number > reached.get(hole, 0))
            if following and done.number == following[0]:
                reached[hole] = done.number
    left = {
        hole: tuple(number for number in stage_numbers(specification, hole) if number > reached[hole])
        for hole in specification.holes
    }
    return {hole: numbers for hole, numbers in left.items() if numbers}


def next_stage(specification: Specification, history: Sequence[StageDone]) -> int | None:
    """The lowest stage that any hole still waits for, or None when all are through."""
    waiting = [numbers[0] for numbers in open_stages(specification, history).values()]
    return min(waiting) if waiting else None


def is_stage_known(specification: Specification, done: StageDone) -> bool:
    """Whether every hole of a pass has a row with that stage number."""
    rows = (stage_for_hole(specification, done.number, hole=hole) for hole in done.holes)
    return done.number == SLACKENED or all(row is not None for row in rows)


def _starts_afresh(number: int, wanted: tuple[int, ...]) -> bool:
    return number == SLACKENED or (bool(wanted) and number == wanted[0])


def _skip(position: int, hole: int, *, done: int, missing: tuple[int, ...]) -> SkippedStage:
    names = ", ".join(str(number) for number in missing)
    sentence = (
        f"Hole {hole} got stage {done} without stage {names}: slacken it and repeat the whole sequence "
        "as the manual says."
    )
    return SkippedStage(position, hole, done, missing, sentence)
