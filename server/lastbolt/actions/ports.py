"""What the actions need of the world outside: journal, photos, look-ups, numbers, layouts, clock and ids."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, Protocol
from uuid import UUID

from ..journal import Line, Raw
from ..vision.outcome import Reading, Unusable

Clock = Callable[[], datetime]
"""Gives the time now, with its offset from UTC."""
NewId = Callable[[], UUID]
"""Gives a new UUID of version 7."""


class Journal(Protocol):
    """Entries appended to the end of their job and read in order."""

    def append(self, job: str, entries: Sequence[Raw], *, received: str) -> Sequence[Line]:
        """Append all or none; an entry that is here already with equal content gives the line it has."""

    def append_own(
        self, job: str, entries: Sequence[Raw], *, received: str, new_photo: str | None = None
    ) -> Sequence[Line]:
        """Append entries without `seq`, numbered by device; nothing when the job has `new_photo` already."""

    def lines(self, job: str) -> Sequence[Line]:
        """Give a job's lines in the order of their positions."""

    def head(self, job: str) -> str:
        """Give the newest hash of a job's chain."""

    def heads(self) -> Mapping[str, str]:
        """Give every job's newest hash."""

    def job_names(self) -> Sequence[str]:
        """Name all jobs."""

    def rebuild(self) -> None:
        """Compute the look-up tables anew from the journal."""


class Photos(Protocol):
    """Original photos by their SHA-256, with their previews."""

    def put(self, photo: bytes) -> str:
        """Keep a photo and give its SHA-256."""

    def original(self, sha256: str) -> bytes:
        """Give a photo's bytes."""

    def state(self, sha256: str) -> Literal["here", "missing", "damaged"]:
        """Tell whether a photo is here, unharmed."""

    def has(self, sha256: str) -> bool:
        """Tell whether a photo's file is here, without looking at its bytes."""

    def put_preview(self, sha256: str, jpeg: bytes) -> None:
        """Keep a photo's preview."""

    def put_stand_in(self, sha256: str, jpeg: bytes) -> None:
        """Keep a small picture that stands in for an original that has not come."""

    def preview(self, sha256: str) -> bytes | None:
        """Give a photo's preview, or what stands in for it."""

    def own_preview(self, sha256: str) -> bytes | None:
        """Give the preview that was made here from the original."""

    def put_small(self, sha256: str, jpeg: bytes, *, of_stand_in: bool) -> None:
        """Keep the small picture of a preview, or of what stands in for it."""

    def small(self, sha256: str) -> bytes | None:
        """Give the small picture of what `preview` gives, if one was kept."""

    def has_stand_in(self, sha256: str) -> bool:
        """Tell whether only a small picture came so far."""


class Arriving(Protocol):
    """Photos on their way in, part by part; nothing of them is acknowledged before the whole is kept."""

    @property
    def part_bytes(self) -> int: ...

    def parts(self, sha256: str) -> int:
        """Count the whole parts that are here."""

    def put(self, sha256: str, number: int, part: bytes) -> int:
        """Put a part in its place, and count the whole parts."""

    def whole(self, sha256: str) -> bytes:
        """Give all bytes that are here."""

    def drop(self, sha256: str) -> None:
        """Let the parts go."""

    def sweep(self, before: float) -> int:
        """Remove photos that nothing was added to since then."""


class ReadingQueue(Protocol):
    """What is being read for which devices, who waits in which order, how long a photo takes."""

    @property
    def reading(self) -> Sequence[str]: ...
    @property
    def waiting(self) -> Sequence[str]: ...
    @property
    def seconds(self) -> float: ...
    @property
    def readers(self) -> int: ...


class Reader(Protocol):
    """Decodes pictures from outside and says what they show; a hostile one costs nothing but its answer."""

    def read(self, photo: bytes, *, device: str, earlier: bytes | None = None) -> Reading | Unusable:
        """Read one photo when it is the device's turn; one that shows nothing against an `earlier` one."""

    def glance(self, photo: bytes, *, device: str) -> Reading | Unusable:
        """Read a picture that somebody waits for, before all photos that wait."""

    def turn(self, *, device: str) -> AbstractContextManager[Reader]:
        """Wait for the device's turn and hold it: the reader that it gives waits no more."""

    def queue(self) -> ReadingQueue:
        """Tell what is being read and what waits."""


class KnownJob(Protocol):
    """One job as lists show it."""

    @property
    def job(self) -> str: ...
    @property
    def machine(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def level(self) -> int: ...
    @property
    def state(self) -> str: ...
    @property
    def last(self) -> str: ...
    @property
    def entries(self) -> int: ...


class Bound(Protocol):
    """A label and what bears it, or bore it before it was retired."""

    @property
    def label(self) -> str: ...
    @property
    def job(self) -> str: ...
    @property
    def container(self) -> str: ...
    @property
    def step(self) -> str | None: ...
    @property
    def retired(self) -> bool: ...


class KnownPhoto(Protocol):
    """A photo in a job."""

    @property
    def sha256(self) -> str: ...
    @property
    def job(self) -> str: ...
    @property
    def container(self) -> str | None: ...


class LookUp(Protocol):
    """Which jobs there are, what a label is bound to, where a photo belongs."""

    def jobs(self) -> Sequence[KnownJob]:
        """Give all jobs, the one last written to first."""

    def job(self, name: str) -> KnownJob | None:
        """Give one job."""

    def label(self, text: str) -> Sequence[Bound]:
        """Give what a label is or was bound to, from its code or its whole payload; the living ones first."""

    def photos(self, sha256: str) -> Sequence[KnownPhoto]:
        """Give the jobs that a photo is in."""


class Counters(Protocol):
    """Running numbers of labels."""

    def take(self, kind: str, count: int) -> Sequence[int]:
        """Give the next free numbers of a kind of label; they are never given again."""


class Layouts(Protocol):
    """Label layouts by name."""

    def names(self) -> Sequence[str]:
        """Name all layouts."""

    def text(self, name: str) -> str:
        """Give the text of a layout."""


@dataclass(frozen=True, slots=True)
class Limits:
    """How large a photo may be, in bytes."""

    largest_photo: int


@dataclass(frozen=True, slots=True)
class Shop:
    """Everything that an action may need of one shop."""

    journal: Journal
    photos: Photos
    arriving: Arriving
    reader: Reader
    look_up: LookUp
    counters: Counters
    layouts: Layouts
    clock: Clock
    new_id: NewId
    limits: Limits
