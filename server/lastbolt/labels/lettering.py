"""How wide letters run at a given height, and how they are made to fit."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.pdfbase.pdfmetrics import stringWidth

PLAIN = "Helvetica"
BOLD = "Helvetica-Bold"

DIGIT_HEIGHT = 0.71
"""Height of Helvetica's digits over its font size (the AFM box of its digits ends at 710 of 1000)."""

LINE = 1.75
"""Distance of text lines over the height of their capitals."""

TIGHTEST = 0.55
"""Letters are squeezed to this share of their width before they are made smaller."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How a text is drawn: height of its digits, and its width as a share of the natural one."""

    height_mm: float
    squeeze: float


def font_size_mm(height_mm: float) -> float:
    """Give the font size whose digits are `height_mm` high."""
    return height_mm / DIGIT_HEIGHT


def width_mm(text: str, height_mm: float, *, bold: bool = False) -> float:
    """Tell how wide a text runs when its digits are `height_mm` high.

    >>> round(width_mm("T-0042-E", 8.0, bold=True), 1)
    47.0
    """
    size = font_size_mm(height_mm)
    return float(stringWidth(text, BOLD if bold else PLAIN, 1000.0)) / 1000.0 * size


def fit(text: str, room_mm: float, *, height_mm: float) -> Fit:
    """Fit bold text into `room_mm`: first by narrower letters, then by smaller ones.

    >>> fit("T-0042-E", 60.0, height_mm=8.0)
    Fit(height_mm=8.0, squeeze=1.0)
    """
    share = room_mm / width_mm(text, height_mm, bold=True)
    if share >= 1:
        return Fit(height_mm, 1.0)
    if share >= TIGHTEST:
        return Fit(height_mm, share)
    return Fit(height_mm * share / TIGHTEST, TIGHTEST)
