"""What goes over the wire for the lead's review: coverage, decisions, the machine's map, the way back."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from pydantic import Field

from .wire import Form, Wire


class ReviewDecision(Wire):
    """The lead's word on a finding as the journal has it."""

    check: str
    subject: str
    decision: Literal["accept", "clear", "defer", "rework"]
    reason: str | None
    limit: datetime | None
    barrier: str | None
    second: str | None
    to: str | None
    by: str
    at: datetime
    lifts: bool = Field(description="false where the finding is on the list all the same")
    own_work: bool = Field(description="who decided had hands on it")


class SetCoverage(Wire):
    """What the record lacks of one touched set."""

    set: str
    missing: list[str]


class Coverage(Wire):
    """How far the record of a job reaches."""

    sets: int
    with_all: int = Field(description="sets with count, photo and place")
    torque_known: int
    second_wanted: int
    second_had: int
    missing: list[SetCoverage]


class ReviewEnd(Wire):
    """What stands at the end of a review: coverage, decisions, what was not checked, what to ask."""

    coverage: Coverage
    decisions: list[ReviewDecision]
    not_checked: list[str]
    question: str
    nothing_else_apart: bool | None = Field(description="the last answer to the question")
    limits: list[str] = Field(description="what every verdict says of itself")


class AccessNode(Wire):
    """One thing on the map: what it is, what it holds, how it stands."""

    name: str
    kind: Literal["part", "set", "connection", "opening", "other"]
    state: Literal["untouched", "off", "half", "back", "buried"]
    words: str
    forms: list[Form] = Field(default=[], description="how `words` are made")
    hidden: bool
    holds: str | None = Field(description="the part that a set or connection holds")


class AccessEdge(Wire):
    """`source` lies over `target`, or must be on before it."""

    kind: Literal["hides", "before"]
    source: str
    target: str
    route: str | None
    need: str
    trusted: bool = Field(description="false where it is only guessed")


class AccessGraph(Wire):
    """What lies over what on the machine, and how each thing stands."""

    nodes: list[AccessNode]
    edges: list[AccessEdge]
    contradictions: list[str]
    forms: list[Form] = Field(default=[], description="how the contradictions are said")


class UndoStep(Wire):
    """One part that must come off again."""

    part: str
    undone: list[str] = Field(description="sets and connections that hold it now")
    minutes: float
    guessed: bool = Field(description="nobody gave the minutes")


class UndoPath(Wire):
    """The cheapest way back to an element."""

    element: str
    sentence: str
    forms: list[Form] = Field(description="how its sentences are made, for another language")
    steps: list[UndoStep]
    minutes: float
    spent: list[str]
    torques: list[str]
    openings: list[str]
    again: list[str]
    in_the_way: list[str]
    proven: bool
    contradiction: str
