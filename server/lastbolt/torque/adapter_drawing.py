"""The picture of a wrench with its adapter: what L, E and the angle are, as SVG text in black and white."""

import math
from html import escape

from lastbolt.torque.adapter import Adapter, setting_for_adapter
from lastbolt.units import NewtonMetres

WIDTH = 480.0
HEIGHT = 300.0
CAUTION = "Hand in the middle of the grip, pull square to the wrench."
_DRIVE_X = 300.0
_DRIVE_Y = 150.0
_REACH = 250.0
_FONT = 'font-family="sans-serif" fill="#000"'


def draw_adapter(adapter: Adapter, wanted_newton_metres: NewtonMetres) -> str:
    """SVG of wrench and adapter seen from above, drawn to scale, with L, E, the angle and what to set.

    The grip is on the left, the drive a square, the fastener a hexagon. No colour, no ids. Very short or very
    long adapters are drawn at 8 % to 60 % of L, so that both letters can be read; the figures stay true.
    """
    lever = _REACH if abs(adapter.extension_mm) <= adapter.lever_mm * 0.6 else _REACH * 0.9
    grip = _DRIVE_X - lever
    share = min(max(abs(adapter.extension_mm) / adapter.lever_mm, 0.08), 0.6)
    length = math.copysign(share * lever, adapter.extension_mm) if adapter.extension_mm else 0.0
    turned = math.radians(adapter.angle_degrees)
    end = (_DRIVE_X + length * math.cos(turned), _DRIVE_Y - length * math.sin(turned))
    setting = setting_for_adapter(wanted_newton_metres, adapter)
    words = f"Wanted at the fastener {wanted_newton_metres:.4g} N·m: set {setting:.4g} N·m."
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" width="{WIDTH:g}" '
        f'height="{HEIGHT:g}" role="img" aria-label="{escape(words)}">',
        f"<title>{escape(words)}</title>",
        f'<rect width="{WIDTH:g}" height="{HEIGHT:g}" fill="#fff"/>',
        _draw_tool(grip, end),
        _draw_lever_line(grip, adapter.lever_mm),
        _draw_extension_line(end, turned, adapter=adapter),
        _text((12, HEIGHT - 34), words, weight="bold"),
        _text((12, HEIGHT - 12), CAUTION),
        "</svg>",
    ]
    return "\n".join(parts)


def _draw_tool(grip: float, end: tuple[float, float]) -> str:
    """Handle with its grip, adapter, square drive and hexagon."""
    y = _DRIVE_Y
    corners = " ".join(
        f"{end[0] + 12 * math.cos(math.radians(60 * step)):.1f},"
        f"{end[1] + 12 * math.sin(math.radians(60 * step)):.1f}"
        for step in range(6)
    )
    return (
        f'<line x1="{grip - 24:.1f}" y1="{y:g}" x2="{_DRIVE_X:g}" y2="{y:g}" stroke="#000" stroke-width="6"/>'
        f'<rect x="{grip - 28:.1f}" y="{y - 9:g}" width="56" height="18" rx="9" fill="#fff" stroke="#000" '
        'stroke-width="2"/>'
        f'<line x1="{_DRIVE_X:g}" y1="{y:g}" x2="{end[0]:.1f}" y2="{end[1]:.1f}" stroke="#000" '
        'stroke-width="12" stroke-linecap="round"/>'
        f'<circle cx="{grip:.1f}" cy="{y:g}" r="3" fill="#000"/>'
        f'<rect x="{_DRIVE_X - 9:g}" y="{y - 9:g}" width="18" height="18" fill="#fff" stroke="#000" '
        'stroke-width="2"/>'
        f'<polygon points="{corners}" fill="#fff" stroke="#000" stroke-width="2"/>'
    )


def _draw_lever_line(grip: float, lever_mm: float) -> str:
    """L from the middle of the grip to the middle of the drive, below the wrench."""
    y = _DRIVE_Y + 56
    drops = "".join(
        f'<line x1="{x:.1f}" y1="{_DRIVE_Y:g}" x2="{x:.1f}" y2="{y + 6:g}" stroke="#000" '
        'stroke-dasharray="3 3"/>'
        for x in (grip, _DRIVE_X)
    )
    line = f'<line x1="{grip:.1f}" y1="{y:g}" x2="{_DRIVE_X:g}" y2="{y:g}" stroke="#000"/>'
    ticks = "".join(_tick(x, y) for x in (grip, _DRIVE_X))
    return drops + line + ticks + _text(((grip + _DRIVE_X) / 2 - 30, y + 18), f"L = {lever_mm:g} mm")


def _draw_extension_line(end: tuple[float, float], turned: float, *, adapter: Adapter) -> str:
    """E from the drive to the fastener beside the adapter, and the angle out of line with the wrench."""
    away = 28.0 if math.cos(turned) > -0.01 else -28.0
    shift = (-away * math.sin(turned), -away * math.cos(turned))
    start = (_DRIVE_X + shift[0], _DRIVE_Y + shift[1])
    stop = (end[0] + shift[0], end[1] + shift[1])
    line = (
        f'<line x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{stop[0]:.1f}" y2="{stop[1]:.1f}" stroke="#000"/>'
        + _tick(*start)
        + _tick(*stop)
    )
    beyond = 1 + 18 / abs(away)
    label = _text(
        ((_DRIVE_X + end[0]) / 2 + shift[0] * beyond, (_DRIVE_Y + end[1]) / 2 + shift[1] * beyond + 5),
        f"E = {adapter.extension_mm:g} mm".replace("-", "−"),
        anchor="middle" if abs(shift[0]) < 7 else "end" if shift[0] < 0 else "start",
    )
    if not adapter.angle_degrees:
        return line + label
    axis = (
        f'<line x1="{_DRIVE_X:g}" y1="{_DRIVE_Y:g}" x2="{_DRIVE_X + 120:g}" y2="{_DRIVE_Y:g}" stroke="#000" '
        'stroke-dasharray="3 3"/>'
    )
    return line + label + axis + _text((_DRIVE_X + 60, _DRIVE_Y + 20), f"a = {adapter.angle_degrees:g}°")


def _tick(x: float, y: float) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.5" fill="#fff" stroke="#000"/>'


def _text(at: tuple[float, float], words: str, *, anchor: str = "start", weight: str = "normal") -> str:
    style = f'font-size="14" font-weight="{weight}" text-anchor="{anchor}"'
    return f'<text x="{at[0]:.1f}" y="{at[1]:.1f}" {style} {_FONT}>{escape(words)}</text>'
