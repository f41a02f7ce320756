"""What is drawn and not written: a box to tick, and the symbol that leads back to the job."""

from __future__ import annotations

import qrcode
from qrcode.constants import ERROR_CORRECT_Q
from qrcode.exceptions import DataOverflowError
from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from ..errors import BadInputError
from ..said import said

QUIET = 4
"""Modules of white around a symbol (ISO/IEC 18004)."""


class TickBox(Flowable):  # type: ignore[misc]
    """An empty square, or one with a cross."""

    def __init__(self, side: float, *, ticked: bool) -> None:
        super().__init__()
        self.width = self.height = side
        self._ticked = ticked

    def draw(self) -> None:
        """Draw it at the origin."""
        side = self.width
        self.canv.setLineWidth(0.8)
        self.canv.rect(0, 0, side, side)
        if self._ticked:
            self.canv.line(0, 0, side, side)
            self.canv.line(0, side, side, 0)


class Symbol(Flowable):  # type: ignore[misc]
    """A QR symbol of any text, its white rim included, `side_mm` wide."""

    def __init__(self, text: str, side_mm: float) -> None:
        super().__init__()
        self.width = self.height = side_mm * mm
        self.hAlign = "RIGHT"
        self._rows = symbol_rows(text)

    def draw(self) -> None:
        """Draw the black modules as one path."""
        module = self.width / (len(self._rows) + 2 * QUIET)
        path = self.canv.beginPath()
        for row, line in enumerate(self._rows):
            top = self.height - (row + QUIET + 1) * module
            for column, is_black in enumerate(line):
                if is_black:
                    path.rect((column + QUIET) * module, top, module, module)
        self.canv.setFillGray(0)
        self.canv.drawPath(path, fill=1, stroke=0)


def symbol_rows(text: str) -> list[list[bool]]:
    """Give the modules of a QR symbol at level Q; True is black.

    Raises:
        BadInputError: the text does not fit into any symbol.
    """
    code = qrcode.QRCode(error_correction=ERROR_CORRECT_Q, border=0)
    code.add_data(text.encode("utf-8"))
    try:
        code.make(fit=True)
    except (DataOverflowError, ValueError) as error:
        raise BadInputError(
            said("{text}... is too long for a symbol; use a shorter address", text=repr(text[:40]))
        ) from error
    return [[bool(module) for module in row] for row in code.modules]
