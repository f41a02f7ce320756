"""Photos of the same thing before and after the work, with the places marked on them; pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from ..journal import Happened
from ..journal.evidence import PairSeen, PhotoPinned
from ..plan.where_to_look import Look, where_to_look
from ..report.questions import photo_pairs
from ..state.job import Job
from . import lead_wire, wire
from .known import Known

FROM_AFTER = frozenset({"after"})
NOT_A_VIEW = frozenset({"manual"})


class Pairs:
    """Finds the pair of any element of one job, with its pins and who looked at it."""

    def __init__(self, known: Known, happened: Sequence[Happened]) -> None:
        self._known = known
        self._pins = pins_of(happened)
        self._seen = {
            each.entry.element: lead_wire.LookedAt(by=each.entry.by, at=each.time)
            for each in happened
            if isinstance(each.entry, PairSeen)
        }
        self._looks = {look.element: look for look in where_to_look(known.state)}

    def ranked(self) -> list[lead_wire.Pair]:
        """Give a pair for everything that is back and has a photo from before, where to look first first."""
        found = [self._pair(p.element, p.before, p.after) for p in photo_pairs(self._known.state)]
        return sorted(found, key=lambda pair: (-pair.score, pair.element))

    def of(self, names: Iterable[str]) -> lead_wire.Pair | None:
        """Give the pair of the first of these elements that has a photo; None where none has."""
        for name in names:
            own = [self._known.photos[p] for p in self._photos_of(name)]
            views = [p for p in own if p.rejected is None and p.shape not in NOT_A_VIEW]
            if views:
                views.sort(key=lambda photo: photo.taken or photo.arrived)
                before, after = _ends(views)
                return self._pair(name, before.photo, after.photo if after else None)
        return None

    def _photos_of(self, name: str) -> list[str]:
        named = self._known.state.photos_of.get(name, ())
        return [photo for photo in dict.fromkeys(named) if photo in self._known.photos]

    def _pair(self, element: str, before: str, after: str | None) -> lead_wire.Pair:
        look = self._looks.get(element, Look(element, 0.0, ()))
        return lead_wire.Pair(
            element=element,
            before=self._shot(before),
            after=self._shot(after) if after else None,
            score=look.score,
            why=list(look.why),
            seen=self._seen.get(element),
        )

    def _shot(self, name: str) -> lead_wire.Shot | None:
        photo = self._known.photos.get(name)
        return lead_wire.Shot(photo=photo, pins=self._pins.get(name, [])) if photo else None


def _ends(views: Sequence[wire.Photo]) -> tuple[wire.Photo, wire.Photo | None]:
    """Choose the newest from before and from after; the first and last where nobody said which is which."""
    after = [photo for photo in views if photo.shape in FROM_AFTER]
    before = [photo for photo in views if photo.shape == "before"]
    first = before[-1] if before else views[0]
    last = after[-1] if after else views[-1]
    return first, last if last.photo != first.photo else None


def pins_of(happened: Iterable[Happened]) -> Mapping[str, list[lead_wire.Pin]]:
    """Give the places marked on each photo; a place marked again moves."""
    found: dict[str, dict[tuple[str, int | None], lead_wire.Pin]] = defaultdict(dict)
    for each in happened:
        e = each.entry
        if isinstance(e, PhotoPinned):
            found[e.photo][e.element, e.hole] = lead_wire.Pin(element=e.element, hole=e.hole, x=e.x, y=e.y)
    return {photo: list(pins.values()) for photo, pins in found.items()}


def near(job: Job, subject: str) -> tuple[str, ...]:
    """Name the elements whose photos may show a subject: itself, its part, where its pieces lie or lay."""
    group = job.sets.get(subject)
    part = group.described.part if group and group.described else None
    bags = [name for name, c in job.containers.items() if subject in c.sets_seen]
    sets = sorted(job.containers[subject].sets_seen) if subject in job.containers else []
    holding = [g.name for g in job.sets.values() if g.described and g.described.part == subject]
    return tuple(name for name in (subject, part, *bags, *sets, *holding) if name)
