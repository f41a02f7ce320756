"""The picture of a hole pattern: numbers, turns and what is done, in black and white, as SVG text."""

import math
from collections.abc import Collection, Sequence
from html import escape

from lastbolt.torque.pattern import Pattern, closest_spacing, is_round

NARROWEST = 360.0
WIDEST = 900.0
LARGEST_MARK = 17.0
WANTED_MARK = 10.0
SMALLEST_MARK = 4.0
_MARK_SHARE = 0.36
_MARGIN = 42.0
_LEGEND = 82.0
_FONT = 'font-family="sans-serif" fill="#000"'


def draw_pattern(
    pattern: Pattern,
    *,
    order: Sequence[int] = (),
    done: Collection[int] = frozenset(),
    title: str = "Tightening order",
    note: str = "",
) -> str:
    """SVG of a pattern: open holes are circles, done ones filled squares, the next one has a double ring.

    The number in a mark is the hole, the one beside it its turn in `order`. Needs no colour and no style
    sheet, carries no ids, and so may stand several times in one page; `note` is a line below.
    CSS pixels, 360 wide, up to 900 where many holes lie close together.
    """
    width = _choose_width(pattern)
    points, height = _scale_places(pattern, width)
    radius = _mark_radius(points)
    middle = _middle(points) if is_round(pattern) else None
    turns = {hole: turn for turn, hole in enumerate(order, start=1)}
    next_hole = next((hole for hole in order if hole not in done), None)
    marks = [
        _draw_mark(hole, point, radius=radius, is_done=hole in done, is_next=hole == next_hole)
        + _draw_turn(turns.get(hole), point, radius=radius, middle=middle)
        for hole, point in points.items()
    ]
    count = f"{sum(hole in done for hole in points)} of {len(points)} done"
    words = escape(f"{title}: {count}")
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height + _LEGEND:g}" '
        f'width="{width:g}" height="{height + _LEGEND:g}" role="img" aria-label="{words}">'
    )
    back = f'<rect width="{width:g}" height="{height + _LEGEND:g}" fill="#fff"/>'
    legend = _draw_legend(words, height, with_turns=bool(turns), note=escape(note))
    return "\n".join([head, f"<title>{words}</title>", back, *marks, legend, "</svg>"])


def _choose_width(pattern: Pattern) -> float:
    """As narrow as the closest two holes allow for marks that can be read."""
    spacing = closest_spacing(pattern)
    if not spacing:
        return NARROWEST
    spread = max(max(values) - min(values) for values in _columns(pattern))
    wanted = spread * WANTED_MARK / (_MARK_SHARE * spacing) + 2 * _MARGIN
    return float(round(min(max(wanted, NARROWEST), WIDEST)))


def _scale_places(pattern: Pattern, width: float) -> tuple[dict[int, tuple[float, float]], float]:
    """Hole to (x, y) in the picture, and the height that the holes need."""
    left, top = (min(values) for values in _columns(pattern))
    right, bottom = (max(values) for values in _columns(pattern))
    largest = max(right - left, bottom - top)
    scale = (width - 2 * _MARGIN) / largest if largest else 1.0
    inset = (width - (right - left) * scale) / 2
    points = {
        place.hole: (inset + (place.x - left) * scale, _MARGIN + (place.y - top) * scale)
        for place in pattern.places
    }
    return points, 2 * _MARGIN + (bottom - top) * scale


def _columns(pattern: Pattern) -> tuple[list[float], list[float]]:
    return [place.x for place in pattern.places], [place.y for place in pattern.places]


def _mark_radius(points: dict[int, tuple[float, float]]) -> float:
    """As large as the closest two holes allow, within what can be read."""
    places = list(points.values())
    closest = min(
        (((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for i, a in enumerate(places) for b in places[:i]),
        default=LARGEST_MARK * 3,
    )
    return max(min(LARGEST_MARK, closest * _MARK_SHARE), SMALLEST_MARK)


def _draw_mark(
    hole: int, point: tuple[float, float], *, radius: float, is_done: bool, is_next: bool = False
) -> str:
    x, y = point
    size = radius * (1.0 if hole < 100 else 0.8)
    number = (
        f'<text x="{x:.1f}" y="{y + size * 0.36:.1f}" font-size="{size:.1f}" font-weight="bold" '
        f'text-anchor="middle" font-family="sans-serif" fill="{"#fff" if is_done else "#000"}">{hole}</text>'
    )
    if is_done:
        corner = f'x="{x - radius:.1f}" y="{y - radius:.1f}"'
        return f'<rect {corner} width="{2 * radius:.1f}" height="{2 * radius:.1f}" fill="#000"/>{number}'
    ring = f'<circle cx="{x:.1f}" cy="{y:.1f}" fill="#fff" stroke="#000" stroke-width="1.5"'
    outer = f'{ring} r="{radius + 4:.1f}"/>' if is_next else ""
    return f'{outer}{ring} r="{radius:.1f}"/>{number}'


def _middle(points: dict[int, tuple[float, float]]) -> tuple[float, float]:
    across, down = zip(*points.values(), strict=True)
    return sum(across) / len(across), sum(down) / len(down)


def _draw_turn(
    turn: int | None, point: tuple[float, float], *, radius: float, middle: tuple[float, float] | None
) -> str:
    """The turn outside a circle of holes, else at the upper right of its mark."""
    if turn is None:
        return ""
    size = max(radius * 0.72, 8.0)
    x, y, anchor = point[0] + radius * 0.95, point[1] - radius * 0.95, "start"
    if middle and (away := math.dist(point, middle)):
        reach = (radius * 1.3 + size * 0.8) / away
        x = point[0] + (point[0] - middle[0]) * reach
        y = point[1] + (point[1] - middle[1]) * reach + size * 0.36
        anchor = "middle"
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:.1f}" text-anchor="{anchor}" {_FONT}>{turn}.</text>'
    )


def _draw_legend(words: str, top: float, *, with_turns: bool, note: str) -> str:
    line = top + 24
    marks = (
        _draw_plain(20, line, is_done=False)
        + _text((34, line + 4), "open")
        + _draw_plain(90, line, is_done=True)
    )
    if with_turns:
        ring = f'<circle cx="160" cy="{line:g}" r="11" fill="none" stroke="#000" stroke-width="1.5"/>'
        next_mark = ring + _draw_plain(160, line, is_done=False) + _text((176, line + 4), "next")
        hint = _text((230, line + 4), "beside it: its turn")
    else:
        next_mark = hint = ""
    below = _text((12, line + 48), note) if note else ""
    return f"{marks}{_text((104, line + 4), 'done')}{next_mark}{hint}{_text((12, line + 30), words)}{below}"


def _draw_plain(x: float, y: float, *, is_done: bool) -> str:
    if is_done:
        return f'<rect x="{x - 8:g}" y="{y - 8:g}" width="16" height="16" fill="#000"/>'
    return f'<circle cx="{x:g}" cy="{y:g}" r="8" fill="#fff" stroke="#000" stroke-width="1.5"/>'


def _text(at: tuple[float, float], words: str) -> str:
    return f'<text x="{at[0]:g}" y="{at[1]:g}" font-size="13" {_FONT}>{words}</text>'
