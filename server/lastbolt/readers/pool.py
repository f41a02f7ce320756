"""The readers of a server: a few warm processes, photos in fair order, a new process for one that ended."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from queue import SimpleQueue
from threading import Lock
from time import monotonic

from ..errors import StoreError
from ..said import said
from ..vision.outcome import Reading, Unusable
from .frames import together
from .process import Bounds, Gone, ReaderProcess
from .turns import STOPPING, ReadingQueue, Turns

MOST_WAITING = 64
OUT_OF_PROCESSES = "the photo reader could not be started; close other programs, then send the photo again"

Start = Callable[[Bounds], ReaderProcess]


class Pool:
    """Decodes pictures in other processes; one that ends a process costs that process and nothing else."""

    def __init__(self, readers: int, bounds: Bounds, *, start: Start = ReaderProcess) -> None:
        self._bounds = bounds
        self._start = start
        self._turns = Turns(readers, MOST_WAITING)
        self._idle: SimpleQueue[ReaderProcess | None] = SimpleQueue()
        for _ in range(readers):
            self._idle.put(None)
        self._readers = readers
        self._lock = Lock()
        self._running: set[ReaderProcess] = set()
        self._reading: list[str] = []
        self._seconds = 0.0
        self._open = True

    def warm(self) -> None:
        """Start every process now, so that the first photo does not wait for it."""
        for _ in range(self._readers):
            self._idle.put(self._one())

    @contextmanager
    def turn(self, device: str, *, pressing: bool = False) -> Iterator[None]:
        """Hold a place among those that may `ask`; a `pressing` turn comes first.

        Raises:
            StoreError: too many wait, or the server stops.
        """
        with self._turns.turn(device, pressing=pressing):
            self._reading.append(device)
            began = monotonic()
            try:
                yield
            finally:
                self._reading.remove(device)
                self._seconds = (self._seconds or monotonic() - began) * 0.8 + (monotonic() - began) * 0.2

    def ask(self, frame: bytes) -> Reading | bytes | Unusable:
        """Have a picture decoded, in a turn; a process that breaks off is tried once more.

        Raises:
            StoreError: the server stops, or no process can be started.
        """
        answer = self._answer(frame)
        if isinstance(answer, Gone) and not answer.too_long:
            answer = self._answer(frame)
        return self._refusal(answer) if isinstance(answer, Gone) else answer

    def queue(self) -> ReadingQueue:
        """Tell what is being read and what waits."""
        return ReadingQueue(tuple(self._reading), self._turns.waiting(), self._seconds, self._readers)

    def pids(self) -> tuple[int, ...]:
        """Give the numbers of the processes that run."""
        with self._lock:
            return tuple(process.pid for process in self._running)

    def close(self) -> None:
        """End every process; who waits is sent away with a sentence."""
        with self._lock:
            self._open = False
        self._turns.close()
        for process in tuple(self._running):
            process.kill()
        for _ in range(self._readers):
            process_or_none = self._idle.get()
            if process_or_none:
                process_or_none.close()

    def _answer(self, frame: bytes) -> Reading | bytes | Unusable | Gone:
        process = self._one()
        answer: Reading | bytes | Unusable | Gone = Gone(too_long=False)
        try:
            answer = process.ask(frame)
            return answer
        finally:
            self._idle.put(self._renewed(process) if isinstance(answer, Gone) else process)

    def _one(self) -> ReaderProcess:
        """Take an idle process, or start one where none was started yet."""
        process = self._idle.get()
        if process:
            return process
        try:
            return self._started()
        except BaseException:
            self._idle.put(None)
            raise

    def _started(self) -> ReaderProcess:
        try:
            with self._lock:
                if not self._open:
                    raise StoreError(STOPPING)
                process = self._start(self._bounds)
                self._running.add(process)
                return process
        except OSError as error:
            raise StoreError(OUT_OF_PROCESSES) from error

    def _renewed(self, process: ReaderProcess) -> ReaderProcess | None:
        """Put a new process in the place of one that ended; where that fails, the next photo tries again."""
        with self._lock:
            self._running.discard(process)
        process.close()
        with suppress(StoreError):
            return self._started()
        return None

    def _refusal(self, gone: Gone) -> Unusable:
        if gone.too_long:
            why = said("it takes longer than {seconds} s", seconds=f"{self._bounds.seconds:g}")
        else:
            limit = self._bounds.memory_bytes // 2**20
            why = said("it broke off in the middle of it (memory limit {limit} MiB)", limit=limit)
        return Unusable(
            said("The photo reader gave up on this picture: {why}; send the camera's own photo.", why=why)
        )


class InTurn:
    """A reader whose turn it is: it waits for nobody, however often it is asked."""

    def __init__(self, pool: Pool) -> None:
        self._pool = pool

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading | Unusable:
        """Have a photo read; one that shows nothing is held against an `earlier` photo of the same tray.

        Raises:
            StoreError: the server stops.
        """
        answer = self._pool.ask(together(photo, earlier))
        assert not isinstance(answer, bytes)
        return answer

    def glance(self, photo: bytes, *, device: str) -> Reading | Unusable:
        """Have a picture read that somebody waits for."""
        return self.read(photo, device=device)

    def queue(self) -> ReadingQueue:
        """Tell what is being read and what waits."""
        return self._pool.queue()

    @contextmanager
    def turn(self, *, device: str) -> Iterator[InTurn]:
        """Go on holding the turn."""
        yield self


class ReaderPool:
    """Says what photos show; what somebody waits for is read next."""

    def __init__(self, readers: int, bounds: Bounds, *, start: Start = ReaderProcess) -> None:
        self._pool = Pool(readers, bounds, start=start)
        self._in_turn = InTurn(self._pool)

    def warm(self) -> None:
        """Start every process now, so that the first photo does not wait for it."""
        self._pool.warm()

    def queue(self) -> ReadingQueue:
        """Tell what is being read and what waits."""
        return self._pool.queue()

    def pids(self) -> tuple[int, ...]:
        """Give the numbers of the processes that read photos."""
        return self._pool.pids()

    def close(self) -> None:
        """End every process; who waits is sent away with a sentence."""
        self._pool.close()

    @contextmanager
    def turn(self, *, device: str) -> Iterator[InTurn]:
        """Wait for the device's turn, and hold it: a photo need not be in memory while it waits.

        Raises:
            StoreError: too many photos wait, or the server stops.
        """
        with self._pool.turn(device):
            yield self._in_turn

    def glance(self, photo: bytes, *, device: str) -> Reading | Unusable:
        """Have a picture read while somebody waits for it: next, before all photos that wait.

        Raises:
            StoreError: too many wait for that, or the server stops.
        """
        with self._pool.turn(device, pressing=True):
            return self._in_turn.read(photo, device=device)

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading | Unusable:
        """Have a photo read when it is the device's turn; one that shows nothing against an `earlier` one.

        Raises:
            StoreError: too many photos wait, or the server stops.
        """
        with self.turn(device=device) as reader:
            return reader.read(photo, device=device, earlier=earlier)


class ShrinkingPool:
    """Makes small pictures of phones' stand-ins, beside the readers: they wait for no photo that is read."""

    def __init__(self, bounds: Bounds) -> None:
        self._pool = Pool(1, replace(bounds, task="shrinking"))

    def read(self, photo: bytes, *, device: str) -> bytes | Unusable:
        """Have a picture made small.

        Raises:
            StoreError: too many wait, or the server stops.
        """
        with self._pool.turn(device):
            answer = self._pool.ask(photo)
        assert not isinstance(answer, Reading)
        return answer

    def close(self) -> None:
        """End the process; who waits is sent away with a sentence."""
        self._pool.close()
