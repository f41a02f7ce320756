"""Finish a release whose signing broke off: its entry is there, and what was to be signed is not kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from threading import Event, Thread

from ..errors import LastboltError, NotAllowedError
from ..said import said
from .board import Board
from .release import ReleaseRoom, finish


class Nobody:
    """Stands where people confirm PINs while nobody is asked: a server that starts, a command that prints."""

    def confirm(self, person: str, pin: str) -> str:
        """Confirm nothing.

        Raises:
            NotAllowedError: always.
        """
        raise NotAllowedError(said("{person} is not asked for a PIN now.", person=person))

    def is_lead(self, person: str) -> bool:
        """Tell that nobody is."""
        return False


def finish_all(room: ReleaseRoom, jobs: Iterable[str]) -> list[str]:
    """Finish what broke off in these jobs, and tell what could not be; the next look at a job tries again."""
    trouble = []
    for job in jobs:
        try:
            finish(room, job)
        except LastboltError as error:
            trouble.append(f"{job}: {error}")
    return trouble


class FirstLook:
    """What a server does once when it starts, beside the requests: finish what broke off, judge all jobs."""

    def __init__(
        self, room: Callable[[], ReleaseRoom], jobs: Callable[[], Iterable[str]], board: Board
    ) -> None:
        self._room, self._jobs, self._board = room, jobs, board
        self._stop = Event()
        self._thread: Thread | None = None
        self.trouble: list[str] = []

    def start(self) -> None:
        """Begin, in a thread of its own."""
        self._board.is_prepared = False
        self._thread = Thread(target=self.run, name="first look", daemon=True)
        self._thread.start()

    def run(self) -> None:
        """Do it now."""
        try:
            self.trouble = finish_all(self._room(), self._jobs())
            self._board.prepare(self._stop.is_set)
        except LastboltError as error:  # whoever asks for the board is told
            self.trouble.append(str(error))
        finally:
            self._board.is_prepared = True

    def stop(self) -> None:
        """Leave the rest to whoever asks; the job that is being judged is waited for."""
        self._stop.set()
        if self._thread:
            self._thread.join()
