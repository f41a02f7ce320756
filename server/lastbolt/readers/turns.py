"""Whose photo is read next: one of each device in turn, so that a phone with two hundred holds nobody up."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Event, Lock

from ..errors import StoreError

FULL = "too many photos wait to be read; send this one again in a minute, nothing of it was recorded"
STOPPING = "the server is stopping; send the photo again when it runs, nothing of it was recorded"


@dataclass(frozen=True, slots=True)
class ReadingQueue:
    """What is being read for which devices, who waits in which order, and how long a photo takes."""

    reading: tuple[str, ...]
    waiting: tuple[str, ...]
    seconds: float
    readers: int


class Turns:
    """A number of places, given out in turn to the devices that wait."""

    def __init__(self, places: int, most_waiting: int) -> None:
        self._free = places
        self._most_waiting = most_waiting
        self._lock = Lock()
        self._rotation: dict[str, deque[Event]] = {}
        self._open = True

    @contextmanager
    def turn(self, device: str) -> Iterator[None]:
        """Wait for a place and hold it.

        Raises:
            StoreError: too many wait already, or the server stops.
        """
        ticket = self._ask(device)
        if ticket is not None:
            ticket.wait()
            if not self._open:
                raise StoreError(STOPPING)
        try:
            yield
        finally:
            self._hand_on()

    def waiting(self) -> tuple[str, ...]:
        """Give the device of each photo that waits, in the order in which they will be read."""
        with self._lock:
            left = {device: len(tickets) for device, tickets in self._rotation.items()}
        order: list[str] = []
        while left:
            order += left
            left = {device: n - 1 for device, n in left.items() if n > 1}
        return tuple(order)

    def close(self) -> None:
        """Send everybody away who waits, and let nobody wait any more."""
        with self._lock:
            self._open = False
            for tickets in self._rotation.values():
                for ticket in tickets:
                    ticket.set()
            self._rotation.clear()

    def _ask(self, device: str) -> Event | None:
        with self._lock:
            if not self._open:
                raise StoreError(STOPPING)
            if self._free:
                self._free -= 1
                return None
            if sum(map(len, self._rotation.values())) >= self._most_waiting:
                raise StoreError(FULL)
            ticket = Event()
            self._rotation.setdefault(device, deque()).append(ticket)
            return ticket

    def _hand_on(self) -> None:
        """Give a place to the next device; what that one has left waits behind the others."""
        with self._lock:
            if not self._rotation:
                self._free += 1
                return
            device = next(iter(self._rotation))
            tickets = self._rotation.pop(device)
            tickets.popleft().set()
            if tickets:
                self._rotation[device] = tickets
