"""The count that a picture shows against the count that was logged: when they differ, and what settles it."""

from __future__ import annotations

from .elements import Container
from .fastener_set import Act
from .job import Job
from .reading import Reading


def compare(job: Job, name: str, reading: Reading) -> None:
    """Hold a reading against what was logged when its photo was taken, and against what is logged now."""
    container = job.container_named(name)
    if reading.photo in container.settled or _is_stale(job, container.reading, reading):
        return
    container.reading = reading
    now = job.ledger.balance(name)
    logged = container.logged.get(reading.photo or "", now)
    fits = any(reading.holds(n) for n in (logged, now))
    container.picture = None if fits else (reading.act, reading.n, logged, reading.confidence)


def note_logged(job: Job, name: str, act: Act) -> None:
    """Pieces were logged into a container with photos as evidence: what these show is compared with that."""
    container = job.container_named(name)
    container.logged.update(dict.fromkeys(act.photos, job.ledger.balance(name)))
    if container.reading is not None and container.reading.photo in act.photos:
        compare(job, name, container.reading)


def settle(container: Container) -> None:
    """A hand count is worth more than every picture taken before it, also those read later."""
    container.picture = container.reading = None
    container.settled.update(container.photos, container.logged)


def _is_stale(job: Job, held: Reading | None, reading: Reading) -> bool:
    """Tell whether a photo was set aside, or is older than one that was read before it."""
    photo = job.photos.get(reading.photo or "")
    if photo is None:
        return False
    before = job.photos.get(held.photo or "") if held else None
    return photo.rejected or (before is not None and before.act.when > photo.act.when)
