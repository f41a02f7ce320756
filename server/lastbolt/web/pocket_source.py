"""What the pocket of a job is made from, as the desk gives it."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from threading import Lock

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


class KeptPockets:
    """The pockets that were asked for last, as they were sent, by their marks."""

    def __init__(self, most: int = 8) -> None:
        self._most = most
        self._said: OrderedDict[str, bytes] = OrderedDict()
        self._lock = Lock()

    def said(self, mark: str, make: Callable[[], bytes]) -> bytes:
        """Give the pocket with a mark, made at need; of two who ask at once both may make it."""
        with self._lock:
            if mark in self._said:
                self._said.move_to_end(mark)
                return self._said[mark]
        made = make()
        with self._lock:
            self._said[mark] = made
            while len(self._said) > self._most:
                self._said.popitem(last=False)
        return made
