"""Where the holes of a set are drawn, by their pins on a photo or on a circle, and the drawing itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..journal import AnyEntry
from ..journal.evidence import PhotoAdded, PhotoPinned, PhotoRejected
from ..torque.drawing import draw_pattern
from ..torque.pattern import Pattern, circle_pattern, free_pattern, pattern_subset
from ..torque.sequence import SUGGESTION_MARK, suggest_order
from .torque_pulled import HoleRow

FEWEST_TO_ORDER = 3
"""With fewer holes there is nothing to choose: no order is suggested, and none is drawn but the maker's."""
ON_A_CIRCLE = (
    "Drawn on a circle, hole 1 at the top, clockwise: the holes may lie otherwise. "
    "Pin them on a photo to draw them where they are."
)
FROM_PINS = "Drawn from the pins on a photo."


@dataclass(frozen=True, slots=True)
class Drawing:
    """The pattern as SVG text, the order in it, whether that is only a suggestion, and what it shows."""

    svg: str
    order: tuple[int, ...]
    is_suggested: bool
    title: str
    remark: str


def pinned_pattern(entries: Iterable[AnyEntry], element: str, count: int) -> Pattern | None:
    """Give the pattern of a set from the newest photo on which each of its holes has a pin; None without one.

    A photo whose size is not recorded is taken as square.
    """
    pins: dict[str, dict[int, tuple[float, float]]] = {}
    aspects: dict[str, float] = {}
    for entry in entries:
        match entry:
            case PhotoAdded() if entry.width and entry.height:
                aspects[entry.photo] = entry.width / entry.height
            case PhotoPinned() if entry.element == element and entry.hole:
                pins[entry.photo] = {**pins.pop(entry.photo, {}), entry.hole: (entry.x, entry.y)}
            case PhotoRejected():
                pins.pop(entry.photo, None)
            case _:
                pass
    for photo, places in reversed(pins.items()):
        if count and all(hole in places for hole in range(1, count + 1)):
            return free_pattern(
                [places[hole] for hole in range(1, count + 1)], aspect=aspects.get(photo, 1.0)
            )
    return None


def draw_set(
    rows: Sequence[HoleRow], pins: Pattern | None, *, order: tuple[int, ...], stage_count: int
) -> Drawing | None:
    """Draw the stage under way of a set; None where there is no order to show.

    Once some holes were touched the others are not drawn: nothing is owed there.
    """
    count = max((row.hole for row in rows), default=0)
    if not rows or (count < FEWEST_TO_ORDER and not order):
        return None
    pattern = pins or circle_pattern(count)
    drawn = order or suggest_order(pattern)
    is_suggested = not order
    stage = min((row.next_stage for row in rows if row.next_stage), default=stage_count)
    untouched = {row.hole for row in rows if row.state == "untouched"}
    some = 0 < len(untouched) < len(rows)
    done = {row.hole for row in rows if row.state == "done" or (row.next_stage or 0) > stage}
    title = f"Stage {stage} of {stage_count}" if stage_count > 1 else "Tightening order"
    svg = draw_pattern(
        pattern_subset(pattern, set(pattern.holes) - untouched) if some else pattern,
        order=drawn,
        done=done | untouched if some else done,
        title=title,
        note=SUGGESTION_MARK if is_suggested else "",
    )
    shown = [row for row in rows if not some or row.state != "untouched"]
    said = f"{title}: {sum(row.hole in done for row in shown)} of {len(shown)} done"
    left_out = f"{len(untouched)} not touched in this job and not drawn." if some else ""
    remark = " ".join(filter(None, (FROM_PINS if pins else ON_A_CIRCLE, left_out)))
    return Drawing(svg, drawn, is_suggested, said, remark)
