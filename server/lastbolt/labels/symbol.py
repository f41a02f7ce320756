"""Texts as QR symbols and numbers as corner markers, both as black rectangles; never a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import qrcode
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_Q
from qrcode.exceptions import DataOverflowError
from qrcode.util import MODE_ALPHA_NUM, QRData

from ..errors import BadInputError
from ..said import said
from .layout import Box

Modules = tuple[tuple[bool, ...], ...]
"""Rows of modules from the top; True is black."""

SMALLEST_MODULE_MM = 0.5
"""Below this a phone does not read a dirty label from arm's length (common practice, no source)."""

CORNER_MARKERS: tuple[tuple[str, ...], ...] = (
    ("######", "#.#..#", "##.#.#", "###..#", "###.##", "######"),
    ("######", "######", "#....#", "#.##.#", "#.#.##", "######"),
    ("######", "###..#", "###..#", "###.##", "#..#.#", "######"),
    ("######", "#.##.#", "#.##.#", "##.###", "##..##", "######"),
)
"""ArUco markers 0 to 3 of the 4x4 dictionary with 50 entries, rim included; # is black.

Written once with OpenCV's `generateImageMarker`; a test compares them with it.
"""

_LEVELS = {"Q": ERROR_CORRECT_Q, "H": ERROR_CORRECT_H}


def qr_modules(text: str, level: Literal["Q", "H"]) -> Modules:
    """Encode an alphanumeric text (capitals, digits, `$%*+-./:` and space) in the smallest version.

    >>> len(qr_modules("T-0042-E", "H"))
    21

    Raises:
        BadInputError: the text does not fit into any symbol.
    """
    code = qrcode.QRCode(error_correction=_LEVELS[level], border=0)
    code.add_data(QRData(text, mode=MODE_ALPHA_NUM), optimize=0)
    try:
        code.make(fit=True)
    except (DataOverflowError, ValueError) as error:
        raise BadInputError(
            said("{text}... is too long for a symbol; use a shorter address", text=repr(text[:40]))
        ) from error
    return tuple(tuple(bool(module) for module in row) for row in code.modules)


def marker_modules(number: int) -> Modules:
    """Give corner marker 0 to 3: top left, top right, bottom right, bottom left of the field."""
    return tuple(tuple(module == "#" for module in row) for row in CORNER_MARKERS[number])


def black_boxes(modules: Modules, place: Box) -> list[Box]:
    """Merge black modules into few rectangles that fill the square `place` exactly."""
    side = place.width / len(modules)
    boxes: list[Box] = []
    open_runs: dict[tuple[int, int], int] = {}
    for row, line in enumerate([*modules, ()]):
        runs = _runs(line)
        for run in [run for run in open_runs if run not in runs]:
            first = open_runs.pop(run)
            boxes.append(
                Box(
                    place.left + run[0] * side,
                    place.top + first * side,
                    (run[1] - run[0]) * side,
                    (row - first) * side,
                )
            )
        for run in runs:
            open_runs.setdefault(run, row)
    return boxes


def _runs(line: Sequence[bool]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    start = None
    for index, black in enumerate([*line, False]):
        if black and start is None:
            start = index
        elif not black and start is not None:
            runs.append((start, index))
            start = None
    return runs
