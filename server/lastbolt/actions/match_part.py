"""Where does this part go? Measure it in a photo, and rank the sets of a job by how well they fit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..journal.fastener_type import FastenerType
from ..state.fastener_set import FastenerSet, Reach
from ..state.job import Job
from ..state.ledger import UNKNOWN
from ..torque.heads import spanner_sizes_mm
from ..vision.match import Candidate, Match, Measured, rank
from ..vision.outcome import Look, SeenPart

SHAPES = {"hex_nut": "nut", "washer": "washer", "part": None}
"""What the reader calls a thing -> the record's kind; everything else that it names is a bolt."""


@dataclass(frozen=True, slots=True)
class Home:
    """One part in the photo and the sets that it may be of, the likeliest first."""

    part: SeenPart
    matches: tuple[Match, ...]


def find_homes(job: Job, seen: Look) -> tuple[Home, ...]:
    """Rank the sets of a job for each part that a photo shows; estimates, never proof."""
    return tuple(Home(part, tuple(rank(measured(part), _wanted(job, part)))) for part in seen.parts)


def home_words(home: Home) -> str:
    """Say in a line what a part is and where it may go."""
    part = home.part
    sizes = [
        f"{name} {value:.1f} mm"
        for name, value in (("length", part.length_mm), ("head", part.head_mm), ("shank", part.shank_mm))
        if value is not None
    ]
    what = f"{part.kind.replace('_', ' ')} ({', '.join(sizes) or 'not measured'})"
    if not home.matches:
        return f"{what}: no home among this job's sets."
    places = "; ".join(f"{m.candidate.name}, {m.share:.0%}" for m in home.matches)
    return f"{what}: {places}. An estimate; try it by hand."


def measured(part: SeenPart) -> Measured:
    """Give a part of a photo as what is known of it."""
    kind = SHAPES.get(part.kind, "bolt")
    return Measured(kind, part.shank_mm, part.length_mm, part.head_mm, in_photo=True)


def _wanted(job: Job, part: SeenPart) -> list[Candidate]:
    return [candidate for _, _, candidate in candidates(job, part.head_mm)]


def candidates(job: Job, head_mm: float | None) -> Iterator[tuple[FastenerSet, FastenerType, Candidate]]:
    """Give every type that a job's sets are of, beside its set; `head_mm` is what was measured."""
    for group in job.sets.values():
        described = group.described
        if described is None:
            continue
        kinds = {str(kind): kind for kind in (described.type, *described.types.values()) if kind is not None}
        for text, kind in kinds.items():
            candidate = Candidate(
                name=f"{group.name} ({text})",
                kind={"screw": "bolt", "stud": "bolt"}.get(kind.kind, kind.kind),
                shank_mm=None if kind.kind in ("nut", "washer") else kind.diameter_mm,
                length_mm=None if kind.kind in ("nut", "washer") else kind.length_mm,
                head_mm=_head_mm(kind, head_mm),
                missing=_misses_one(job, group),
                same_zone=False,
            )
            yield group, kind, candidate


def _head_mm(kind: FastenerType, head_mm: float | None) -> float | None:
    """Give the spanner size nearest to what was measured: standards differ, M10 is 16 or 17."""
    if head_mm is None or kind.diameter_mm is None or kind.kind == "washer":
        return None
    sizes = spanner_sizes_mm(kind.diameter_mm)
    return min(sizes, key=lambda size: abs(size - head_mm), default=None)


def _misses_one(job: Job, group: FastenerSet) -> bool:
    lost = any(loss.closed is None and loss.set == group.name for loss in job.losses.values())
    return lost or bool(group.of_reach(Reach.EMPTY)) or job.ledger.balance(UNKNOWN, group.name) > 0
