"""Whose photo is read next: first what somebody waits for, then one of each device in turn.

So a phone with two hundred photos holds nobody up.
"""

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


class Rotation:
    """Who waits, one ticket of each device in turn; used under its owner's lock."""

    def __init__(self) -> None:
        self._tickets: dict[str, deque[Event]] = {}

    def __len__(self) -> int:
        return sum(map(len, self._tickets.values()))

    def add(self, device: str) -> Event:
        """Put a device's next ticket behind its earlier ones."""
        ticket = Event()
        self._tickets.setdefault(device, deque()).append(ticket)
        return ticket

    def call(self) -> None:
        """Let the next ticket go on; what its device has left waits behind the other devices."""
        device = next(iter(self._tickets))
        tickets = self._tickets.pop(device)
        tickets.popleft().set()
        if tickets:
            self._tickets[device] = tickets

    def call_all(self) -> None:
        """Let everybody go on."""
        while self._tickets:
            self.call()

    def order(self) -> list[str]:
        """Give the device of each ticket, in the order in which they will be called."""
        left = {device: len(tickets) for device, tickets in self._tickets.items()}
        order: list[str] = []
        while left:
            order += left
            left = {device: n - 1 for device, n in left.items() if n > 1}
        return order


class Turns:
    """A number of places, given out first to who presses, then in turn to the devices that wait."""

    def __init__(self, places: int, most_waiting: int) -> None:
        self._free = places
        self._most_waiting = most_waiting
        self._lock = Lock()
        self._pressing = Rotation()
        self._patient = Rotation()
        self._open = True

    @contextmanager
    def turn(self, device: str, *, pressing: bool = False) -> Iterator[None]:
        """Wait for a place and hold it; a `pressing` turn comes before all that are not.

        Raises:
            StoreError: too many wait already, or the server stops.
        """
        ticket = self._ask(device, self._pressing if pressing else self._patient)
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
            return (*self._pressing.order(), *self._patient.order())

    def close(self) -> None:
        """Send everybody away who waits, and let nobody wait any more."""
        with self._lock:
            self._open = False
            self._pressing.call_all()
            self._patient.call_all()

    def _ask(self, device: str, among: Rotation) -> Event | None:
        with self._lock:
            if not self._open:
                raise StoreError(STOPPING)
            if self._free:
                self._free -= 1
                return None
            if len(among) >= self._most_waiting:
                raise StoreError(FULL)
            return among.add(device)

    def _hand_on(self) -> None:
        """Give the place to the next who waits."""
        with self._lock:
            if self._pressing:
                self._pressing.call()
            elif self._patient:
                self._patient.call()
            else:
                self._free += 1
