"""The photos of a job as the journal tells of them: what each shows, where it belongs; never their bytes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime

from ..actions.originals import Where
from ..journal import Happened
from ..journal.evidence import PhotoAdded, PhotoCounted, PhotoLinked, PhotoRejected
from . import wire

WhereIs = Callable[[str, str], Where]
"""Tells from a SHA-256 and the device that recorded it where an original is."""


def photos_from(happened: Iterable[Happened]) -> dict[str, wire.Photo]:
    """Give every photo of a job by name, in the order in which they were taken or came.

    A photo that only other entries name is there too, without its hash: its bytes have not come yet.
    """
    found: dict[str, wire.Photo] = {}
    for each in happened:
        entry = each.entry
        match entry:
            case PhotoAdded():
                found[entry.photo] = _merged(found.get(entry.photo), _added(entry, each.time))
            case PhotoLinked():
                before = found.get(entry.photo) or _unseen(entry.photo, each.time)
                shape = entry.shape or before.shape
                found[entry.photo] = before.model_copy(update={"element": entry.element, "shape": shape})
            case PhotoRejected():
                before = found.get(entry.photo) or _unseen(entry.photo, each.time)
                found[entry.photo] = before.model_copy(update={"rejected": entry.why})
            case PhotoCounted() if entry.photo in found and found[entry.photo].container is None:
                found[entry.photo] = found[entry.photo].model_copy(update={"container": entry.container})
            case _:
                pass
        for name in entry.photos:
            found.setdefault(name, _unseen(name, each.time))
    return found


def placed(photos: dict[str, wire.Photo], where_is: WhereIs) -> dict[str, wire.Photo]:
    """Say of each photo where its original is."""
    return {
        name: each.model_copy(update={"original": _where(each, where_is)}) for name, each in photos.items()
    }


def _where(photo: wire.Photo, where_is: WhereIs) -> Where | None:
    where = where_is(photo.sha256, photo.device or "") if photo.sha256 else None
    return None if photo.rejected and where == "on the phone" else where


def newest_first(photos: Iterable[wire.Photo]) -> list[wire.Photo]:
    """Sort photos by when they were taken, else came, the newest first."""
    return sorted(photos, key=lambda photo: (photo.taken or photo.arrived, photo.photo), reverse=True)


def _added(entry: PhotoAdded, arrived: datetime) -> wire.Photo:
    return wire.Photo(
        photo=entry.photo,
        sha256=entry.sha256,
        shape=entry.shape,
        width=entry.width,
        height=entry.height,
        taken=entry.taken_at,
        taken_local=entry.taken_at_local,
        arrived=arrived,
        element=entry.element,
        container=entry.container,
        labels=list(entry.labels),
        step=entry.step,
        rejected=None,
        device=entry.device,
        original=None,
    )


def _merged(before: wire.Photo | None, now: wire.Photo) -> wire.Photo:
    """Keep what was known of a photo where the newer word says nothing."""
    if before is None:
        return now
    known = {k: v for k, v in before.model_dump().items() if getattr(now, k) in (None, [], "other")}
    return now.model_copy(update=known)


def _unseen(name: str, first_named: datetime) -> wire.Photo:
    return wire.Photo(
        photo=name,
        sha256=name if len(name) == 64 and all(c in "0123456789abcdef" for c in name) else None,
        shape="other",
        width=None,
        height=None,
        taken=None,
        taken_local=None,
        arrived=first_named,
        element=None,
        container=None,
        labels=[],
        step=None,
        rejected=None,
        device=None,
        original=None,
    )


def picture_counts_from(happened: Iterable[Happened]) -> dict[str, wire.PictureCount]:
    """Give the newest count that the reader made of each container's picture."""
    counts: dict[str, wire.PictureCount] = {}
    for each in happened:
        entry = each.entry
        if isinstance(entry, PhotoCounted):
            low, high = entry.interval
            counts[entry.container] = wire.PictureCount(low=low, high=high, at=each.time)
    return counts
