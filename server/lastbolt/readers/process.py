"""One process that decodes pictures, as the server sees it: asked one at a time, ended when it is late."""

from __future__ import annotations

import signal
import subprocess
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import Timer
from typing import Literal

from ..said import from_json
from ..vision.outcome import Reading, Unusable
from ..vision.reading import look_from_json
from .confined import READ, REFUSED, SLOWEST
from .frames import read_frame, write_frame

STARTING_S = 60.0
"""So much later than the process would end itself the server ends it: a start may be slow."""
LARGEST_ANSWER = 64 * 2**20


@dataclass(frozen=True, slots=True)
class Bounds:
    """What one process may have and what it is for; `seconds` are those of the processor, for one picture.

    `task` names the module that it runs: `worker` reads a photo, `shrinking` makes a small picture alone.
    """

    memory_bytes: int
    seconds: float
    preview_edge_px: int
    task: Literal["worker", "shrinking"] = "worker"


@dataclass(frozen=True, slots=True)
class Gone:
    """The process ended over a photo; `too_long` says that the server ended it."""

    too_long: bool


class ReaderProcess:
    """A process that decodes pictures; used by one thread at a time."""

    def __init__(self, bounds: Bounds) -> None:
        """Start the process; it warms up by itself.

        Raises:
            OSError: the system starts no more processes.
        """
        self._bounds = bounds
        self._is_late = False
        command = [sys.executable, "-m", f"lastbolt.readers.{bounds.task}"]
        numbers = (bounds.memory_bytes, bounds.seconds, bounds.preview_edge_px)
        places = [str(Path(place).absolute()) for place in sys.path if place]
        self._process = subprocess.Popen(
            [*command, *map(str, numbers)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={"PYTHONPATH": ":".join(places), "LC_ALL": "C.UTF-8", "MALLOC_ARENA_MAX": "2"},
        )

    @property
    def pid(self) -> int:
        """Give the number of the process."""
        return self._process.pid

    def ask(self, photo: bytes) -> Reading | bytes | Unusable | Gone:
        """Have a picture decoded; after `Gone` this process is of no use any more."""
        limit = self._bounds.seconds * SLOWEST + STARTING_S
        late = Timer(limit, self._end_late)
        late.start()
        try:
            answer = self._answer_to(photo)
        finally:
            late.cancel()
        return answer if answer is not None else Gone(too_long=self._is_late or self._took_too_long())

    def kill(self) -> None:
        """End the process, also while another thread asks it."""
        self._process.kill()

    def close(self) -> None:
        """End the process and let its pipes go; only while nobody asks it."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            with suppress(OSError):
                assert pipe is not None
                pipe.close()

    def _took_too_long(self) -> bool:
        """Tell whether the system ended the process for what it took of the processor or the clock."""
        self._process.kill()
        return self._process.wait() in (-signal.SIGXCPU, -signal.SIGALRM)

    def _end_late(self) -> None:
        self._is_late = True
        self._process.kill()

    def _answer_to(self, photo: bytes) -> Reading | bytes | Unusable | None:
        pictures, answers = self._process.stdin, self._process.stdout
        assert pictures is not None and answers is not None
        try:
            write_frame(pictures, photo)
            frames = [read_frame(answers, LARGEST_ANSWER) for _ in range(3)]
            kind, said, picture = frames
            if said is None or picture is None:
                return None
            if kind == REFUSED:
                return Unusable(from_json(said.decode()))
            if kind != READ or not picture:
                return None
            return picture if self._bounds.task == "shrinking" else Reading(look_from_json(said), picture)
        except (OSError, ValueError, TypeError, KeyError):
            return None
