"""The readers of a server: a few warm processes, photos in fair order, a new process for one that ended."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from queue import SimpleQueue
from threading import Lock
from time import monotonic
from typing import Generic, TypeVar

from ..errors import StoreError
from ..vision.outcome import Reading, Unusable
from .frames import together
from .kinds import ReaderProcess, ShrinkingProcess
from .process import Bounds, Gone, PictureProcess
from .turns import STOPPING, ReadingQueue, Turns

MOST_WAITING = 64
OUT_OF_PROCESSES = "the photo reader could not be started; close other programs, then send the photo again"

Answer = TypeVar("Answer")


class Pool(Generic[Answer]):
    """Decodes pictures in other processes; one that ends a process costs that process and nothing else."""

    def __init__(
        self, readers: int, bounds: Bounds, *, start: Callable[[Bounds], PictureProcess[Answer]]
    ) -> None:
        self._bounds = bounds
        self._start = start
        self._turns = Turns(readers, MOST_WAITING)
        self._idle: SimpleQueue[PictureProcess[Answer] | None] = SimpleQueue()
        for _ in range(readers):
            self._idle.put(None)
        self._readers = readers
        self._lock = Lock()
        self._running: set[PictureProcess[Answer]] = set()
        self._reading: list[str] = []
        self._seconds = 0.0
        self._open = True

    def warm(self) -> None:
        """Start every process now, so that the first photo does not wait for it."""
        for _ in range(self._readers):
            self._idle.put(self._one())

    def read(self, photo: bytes, *, device: str) -> Answer | Unusable:
        """Have a photo read when it is the device's turn; a process that breaks off is tried once more.

        Raises:
            StoreError: too many photos wait, or the server stops.
        """
        with self._turns.turn(device):
            self._reading.append(device)
            began = monotonic()
            try:
                answer = self._read(photo)
                if isinstance(answer, Gone) and not answer.too_long:
                    answer = self._read(photo)
            finally:
                self._reading.remove(device)
                self._seconds = (self._seconds or monotonic() - began) * 0.8 + (monotonic() - began) * 0.2
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

    def _read(self, photo: bytes) -> Answer | Unusable | Gone:
        process = self._one()
        answer: Answer | Unusable | Gone = Gone(too_long=False)
        try:
            answer = process.ask(photo)
            return answer
        finally:
            self._idle.put(self._renewed(process) if isinstance(answer, Gone) else process)

    def _one(self) -> PictureProcess[Answer]:
        """Take an idle process, or start one where none was started yet."""
        process = self._idle.get()
        if process:
            return process
        try:
            return self._started()
        except BaseException:
            self._idle.put(None)
            raise

    def _started(self) -> PictureProcess[Answer]:
        try:
            with self._lock:
                if not self._open:
                    raise StoreError(STOPPING)
                process = self._start(self._bounds)
                self._running.add(process)
                return process
        except OSError as error:
            raise StoreError(OUT_OF_PROCESSES) from error

    def _renewed(self, process: PictureProcess[Answer]) -> PictureProcess[Answer] | None:
        """Put a new process in the place of one that ended; where that fails, the next photo tries again."""
        with self._lock:
            self._running.discard(process)
        process.close()
        with suppress(StoreError):
            return self._started()
        return None

    def _refusal(self, gone: Gone) -> Unusable:
        if gone.too_long:
            why = f"it takes longer than {self._bounds.seconds:g} s"
        else:
            why = f"it broke off in the middle of it (memory limit {self._bounds.memory_bytes // 2**20} MiB)"
        return Unusable(f"The photo reader gave up on this picture: {why}; send the camera's own photo.")


class ReaderPool(Pool[Reading]):
    """Says what photos show."""

    def __init__(
        self,
        readers: int,
        bounds: Bounds,
        *,
        start: Callable[[Bounds], PictureProcess[Reading]] = ReaderProcess,
    ) -> None:
        super().__init__(readers, bounds, start=start)
        self._lane: Pool[Reading] = Pool(1, bounds, start=start)

    def warm(self) -> None:
        """Start every process now, so that the first photo does not wait for it."""
        super().warm()
        self._lane.warm()

    def close(self) -> None:
        """End every process; who waits is sent away with a sentence."""
        super().close()
        self._lane.close()

    def glance(self, photo: bytes, *, device: str) -> Reading | Unusable:
        """Have a picture read while somebody waits for it, in a process that reads nothing else.

        Raises:
            StoreError: too many wait for that, or the server stops.
        """
        return self._lane.read(together(photo, None), device=device)

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading | Unusable:
        """Have a photo read; one that shows nothing is held against an `earlier` photo of the same tray.

        Raises:
            StoreError: too many photos wait, or the server stops.
        """
        return super().read(together(photo, earlier), device=device)


class ShrinkingPool(Pool[bytes]):
    """Makes small pictures of phones' stand-ins, beside the readers: they wait for no photo that is read."""

    def __init__(self, bounds: Bounds) -> None:
        super().__init__(1, bounds, start=ShrinkingProcess)
