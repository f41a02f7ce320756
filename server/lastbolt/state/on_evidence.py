"""How entries about photos, labels, containers and devices change a job."""

from __future__ import annotations

from ..journal.checking import ClockMarked, DeviceReported, EntriesHeld
from ..journal.evidence import (
    ContainerCounted,
    ContainerDescribed,
    ContainerEmptied,
    ContainerPlaced,
    ContainerScanned,
    LabelBound,
    LabelRetired,
    PhotoAdded,
    PhotoCounted,
    PhotoLinked,
    PhotoPinned,
    PhotoRejected,
    ReadingCorrected,
)
from .elements import Container, Device, Photo
from .fastener_set import Act
from .job import Job
from .picture_counts import compare, settle
from .reading import Reading

DRIFT_SEEN_S = 60
"""A clock this far off is worth a word while working; 120 s is the check's limit (practice C48)."""


def add_photo(job: Job, e: PhotoAdded, act: Act) -> None:
    """A photo came in."""
    photo = job.photos.setdefault(e.photo, Photo(e.photo, act))
    photo.shape = e.shape
    photo.linked = photo.linked or e.photo in job.named_photos
    for name in (e.element, e.container):
        if name:
            photo.linked = True
            job.photos_of[name].append(e.photo)
    if e.container:
        container = job.container_named(e.container)
        container.photos.append(e.photo)
        container.logged.setdefault(e.photo, job.ledger.balance(e.container))


def link_photo(job: Job, e: PhotoLinked, act: Act) -> None:
    """A photo gets its place."""
    photo = job.photos.setdefault(e.photo, Photo(e.photo, act))
    photo.linked = True
    photo.shape = e.shape or photo.shape
    job.photos_of[e.element].append(e.photo)


def pin_photo(job: Job, e: PhotoPinned, act: Act) -> None:
    """A pin on a photo names its place too."""
    job.photos.setdefault(e.photo, Photo(e.photo, act)).linked = True
    job.photos_of[e.element].append(e.photo)


def count_photo(job: Job, e: PhotoCounted, act: Act) -> None:
    """The picture's count beside the ledger's of the moment of the photo, however late the reading came."""
    low, high = e.interval
    compare(job, e.container, Reading(act, e.photo, low, e.n, high, e.confidence))


def correct_reading(job: Job, e: ReadingCorrected, act: Act) -> None:
    """A person struck or added outlines: from then on this is what the picture shows."""
    compare(job, e.container, Reading(act, e.photo, e.n, e.n, e.n, 1.0))


def reject_photo(job: Job, e: PhotoRejected, act: Act) -> None:
    """Blurred, wrong or double: it need not be linked, and its count is worth nothing."""
    job.photos.setdefault(e.photo, Photo(e.photo, act)).rejected = True
    for container in job.containers.values():
        if container.reading is not None and container.reading.photo == e.photo:
            container.picture = container.reading = None


def bind_label(job: Job, e: LabelBound, act: Act) -> None:
    """One label, one living thing."""
    job.labels.setdefault(e.label, {}).setdefault(e.container, act)
    job.retired.pop(e.label, None)
    container = job.container_named(e.container)
    container.kind = e.container_kind


def retire_label(job: Job, e: LabelRetired, act: Act) -> None:
    """Dead."""
    job.labels.pop(e.label, None)
    job.retired[e.label] = act


def describe_container(job: Job, e: ContainerDescribed, act: Act) -> None:
    """What it is."""
    container = job.container_named(e.container)
    container.kind, container.shared = e.container_kind, e.shared


def scan_container(job: Job, e: ContainerScanned, act: Act) -> None:
    """Seen here now."""
    container = job.container_named(e.container)
    container.scanned, container.unseen_at_handover = act, None


def place_container(job: Job, e: ContainerPlaced, act: Act) -> None:
    """Where it lies."""
    container = job.container_named(e.container)
    container.place, container.scanned, container.unseen_at_handover = e.place, act, None


def count_container(job: Job, e: ContainerCounted, act: Act) -> None:
    """Counted by hand: settles a picture's count, and differs or agrees with the ledger."""
    container = job.container_named(e.container)
    balance = job.ledger.balance(e.container, e.set)
    container.scanned, container.unseen_at_handover = act, None
    if not _differs_for_another(container, e.set):
        container.counted, container.counted_set = (act, e.n, balance), e.set
        container.counted_empty = e.n == 0 and (e.set is None or balance == job.ledger.balance(e.container))
    settle(container)
    container.used = True


def _differs_for_another(container: Container, counted_set: str | None) -> bool:
    """Tell whether a count of another set stands that differed: counting this one says nothing of it."""
    before = container.counted
    if before is None or None in (counted_set, container.counted_set) or container.counted_set == counted_set:
        return False
    return before[1] != before[2]


def empty_container(job: Job, e: ContainerEmptied, act: Act) -> None:
    """Looked into and felt: nothing left; the ledger may say otherwise."""
    container = job.container_named(e.container)
    balance = job.ledger.balance(e.container)
    container.emptied, container.scanned, container.used = act, act, True
    container.unseen_at_handover = None
    container.counted = (act, 0, balance) if balance else None
    container.counted_set, container.counted_empty = None, bool(balance)
    if not balance:
        settle(container)


def report_device(job: Job, e: DeviceReported, act: Act) -> None:
    """What a phone still holds; of a lost one only a lead says that nothing is owed (practice 3.3)."""
    device = job.devices.setdefault(e.reported_device, Device(e.reported_device))
    unsent, gap = e.unsent, e.gap
    if e.lost and not job.is_lead(e.by, e.role):
        unsent, gap = max(unsent, device.unsent), max(gap, device.gap)
    device.unsent, device.gap, device.lost, device.report = unsent, gap, e.lost, act
    device.unknown = e.unknown


def hold_entries(job: Job, e: EntriesHeld, act: Act) -> None:
    """What came from a phone and waits for a lead's look."""
    device = job.devices.setdefault(e.held_device, Device(e.held_device))
    device.held, device.report = e.n, act


def mark_clock(job: Job, e: ClockMarked, act: Act) -> None:
    """How far a phone's clock is off."""
    device = job.devices.setdefault(e.marked_device, Device(e.marked_device))
    device.offset_s, device.mark = e.offset_s, act
    device.order_flips = device.order_flips or e.order_flips
