"""What goes over the wire about the board: all jobs at one look."""

from __future__ import annotations

from datetime import datetime

from pydantic import Field

from .wire import Counts, Wire


class Uncovered(Wire):
    """The opening that has lain bare longest; class A is the worst."""

    opening: str
    opening_class: str
    since: datetime


class BoardJob(Wire):
    """One job as a line of the board."""

    job: str
    machine: str
    title: str
    level: int
    state: str = Field(description="open, waiting, released, cancelled, changed since its release")
    counts: Counts
    not_checked: int = Field(description="how many checks did not run at this job's level")
    opened: datetime | None
    last: datetime | None = Field(description="when the last entry happened")
    age_days: int | None = Field(description="whole days since it was opened")
    people: list[str] = Field(description="who is signed on now")
    uncovered: Uncovered | None
    entries: int
    older: bool = Field(description="whether the line is as it was kept, not judged anew yet")


class Board(Wire):
    """All jobs, the one last written to first."""

    at: datetime
    judging: int = Field(description="how many jobs a server that starts has still to judge; 0 ever after")
    jobs: list[BoardJob]
