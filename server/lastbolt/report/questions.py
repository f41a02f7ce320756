"""What to ask people, because no record can know it: the net for what was never logged (practice 10)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from ..finding import are, pieces
from ..state.elements import Photo
from ..state.fastener_set import Act, Reach
from ..state.job import Job

Moment = Literal["handover", "release"]
NOT_LISTED = "Is anything apart, opened, drained or brought in that is not on this list?"
BEFORE, AFTER = ("before", "other"), ("after", "other")
HANDOVER = (
    ("half-done", "What is half done?"),
    ("dangerous", "What is dangerous?"),
    ("not-listed", "What is not in here?"),
)


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to ask: what about, in words, and the elements or photos that it names."""

    about: str
    text: str
    subjects: tuple[str, ...] = ()


class PhotoPair(NamedTuple):
    """An element that is back, its last photo from before, and that from after; None while it is owed."""

    element: str
    before: str
    after: str | None


def questions(job: Job, moment: Moment = "release") -> tuple[Question, ...]:
    """List what to ask at a handover or before a release."""
    asked = [Question(about, text) for about, text in HANDOVER] if moment == "handover" else []
    return (*asked, *_of_record(job), Question("anything-else", NOT_LISTED))


def _of_record(job: Job) -> Iterator[Question]:
    owed = [pair.element for pair in photo_pairs(job) if pair.after is None]
    if owed:
        text = f"{pieces(len(owed), 'photo')} from after {are(len(owed))} owed. What differs from before?"
        yield Question("photo-pairs", text, tuple(owed))
    untouched = never_touched(job)
    if untouched:
        text = f"{pieces(len(untouched), 'element')} of the plan never came up: not done, or not recorded?"
        yield Question("never-touched", text, untouched)
    unlinked = tuple(p.name for p in job.photos.values() if not p.linked and not p.rejected)
    if unlinked:
        yield Question("photos-without-a-place", "What do these photos show?", unlinked)


def never_touched(job: Job) -> tuple[str, ...]:
    """Name the elements of the job's plan without any work recorded on them."""
    return tuple(sorted(job.plan_elements - job.touched.keys()))


def photo_pairs(job: Job) -> tuple[PhotoPair, ...]:
    """Pair the last photos from before and after of what was worked on and is back.

    A photo whose kind nobody said counts as from after when it was taken since the element is back.
    """
    found = []
    for element, names in sorted(job.photos_of.items()):
        back = _back_on(job, element)
        known = [job.photos[name] for name in names if name in job.photos and not job.photos[name].rejected]
        if back is None:
            continue
        before = [p for p in known if p.act.time < back.time and p.shape in BEFORE]
        after = [p for p in known if p.act.time >= back.time and p.shape in AFTER]
        if before:
            found.append(PhotoPair(element, _newest(before) or "", _newest(after)))
    return tuple(found)


def _newest(photos: list[Photo]) -> str | None:
    return max(photos, key=lambda photo: photo.act.time).name if photos else None


def _back_on(job: Job, element: str) -> Act | None:
    """Give the act that brought an element back; None while it is off, apart or partly out."""
    if element in job.sets:
        touched = [h for h in job.sets[element].holes.values() if h.touched]
        acts = [h.fitted for h in touched if h.fitted]
        return max(acts, default=None) if touched and all(h.reach >= Reach.PLACED for h in touched) else None
    if element in job.parts:
        part = job.parts[element]
        return part.on_at if part.on else None
    if element in job.connections:
        here = job.connections[element]
        return here.made if here.apart is None else None
    return None
