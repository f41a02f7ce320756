"""What the pocket of a job is made from, as the desk gives it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from ..actions.ports import KnownJob
from ..actions.verify import View
from ..journal import Happened, Line
from ..state import Job


@dataclass(frozen=True, slots=True)
class PocketSource:
    """A job's verdict, its lines, those of them that count, other jobs, and what day it is.

    `near` are the jobs that a verdict depends on, `others_open` all that are neither released nor ended.
    """

    view: View
    listed: KnownJob
    lines: Sequence[Line]
    happened: Sequence[Happened]
    near: Sequence[Job]
    others_open: Sequence[Job]
    on: date
