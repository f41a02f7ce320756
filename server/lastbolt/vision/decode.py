"""From a picture to the QR labels in it, each with its text and four corners."""

from collections.abc import Iterator

import cv2
import numpy as np
import zxingcpp
from pyzbar import pyzbar

from lastbolt.vision.corners import ordered_symbol, refine_corners
from lastbolt.vision.finders import busy_regions, unexplained_finders, unread_regions
from lastbolt.vision.outcome import Grey, Image, LabelMark, Points
from lastbolt.vision.scale import within

WARN_PX_PER_MODULE = 3.5
"""Below this many pixels a module a label is read by luck (measured on drawn scenes)."""

_MOST_PIXELS_ENLARGED = 20_000_000
_ENLARGED_AT_ONCE = 4_000_000
"""Small pictures are read at twice their size in any case: it is cheap, and their modules are few pixels."""
_SMALL_EDGE_PX = 1000
_CLOSE_UP_PX = 900
_QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCodeModel2)


def find_labels(image: Image | Grey) -> list[LabelMark]:
    """Every QR symbol in an upright picture, from the top down; an empty list when there is none.

    A cascade of decoders that stops as soon as every finder pattern in the frame belongs to a read symbol:
    zxing-cpp at full size, both decoders on an enlarged threshold of the places that show unread finder
    patterns, zxing-cpp after local contrast equalisation, zbar at 1000 px, zxing-cpp at twice the size,
    zxing-cpp on an adaptive threshold. But for the second, the order measured best on public photo suites.
    """
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY) if image.ndim == 3 else image
    marks: list[LabelMark] = []
    for found in _passes(np.ascontiguousarray(grey), marks):
        for text, corners, modules in found:
            if not _is_known(text, corners, marks):
                marks.append(_mark(grey, text, corners, modules))
        if marks and not unexplained_finders(grey, [mark.corners for mark in marks]):
            break
    return sorted(marks, key=lambda mark: (float(mark.corners[:, 1].min()), float(mark.corners[:, 0].min())))


Found = list[tuple[str, Points, int | None]]
"""Text, rough corners in the symbol's order (zbar: any order) and modules along an edge, when known."""


def _passes(grey: Grey, marks: list[LabelMark]) -> Iterator[Found]:
    """What each decoder finds, in turn; `marks` holds what has been read so far."""
    small = grey.size <= _ENLARGED_AT_ONCE
    yield _zxing(grey) + (_zxing_double(grey) if small else [])
    for region in unread_regions(grey, [mark.corners for mark in marks]):
        yield _close_up(grey, region)
    even = cv2.createCLAHE(3.0, (8, 8)).apply(grey)
    yield _zxing(even)
    yield _zbar(grey)
    if not small and grey.size <= _MOST_PIXELS_ENLARGED:
        yield _zxing_double(grey)
    block = max(11, (max(grey.shape) // 40) | 1)
    yield _zxing(cv2.adaptiveThreshold(grey, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY, block, 4))
    if not marks:
        for region in busy_regions(grey):
            yield _close_up(grey, region)


def _close_up(grey: Grey, region: tuple[int, int, int, int]) -> Found:
    """Both decoders on one place, enlarged, its modules set apart by a local threshold.

    Over-exposed paper bleeds into the black modules, so a second try lets the dark grow first.
    """
    left, top, right, bottom = region
    scale = float(np.clip(_CLOSE_UP_PX / max(right - left, bottom - top), 1.0, 4.0))
    view = cv2.resize(grey[top:bottom, left:right], None, fx=scale, fy=scale, interpolation=cv2.INTER_CUBIC)
    grown = cv2.erode(view, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (5, 5)))
    block = int(12 * scale) | 1
    for one in (view, grown):
        calm = cv2.GaussianBlur(one, (0, 0), 0.4 * scale)
        clear = cv2.adaptiveThreshold(calm, 255, cv2.ADAPTIVE_THRESH_GAUSSIAN_C, cv2.THRESH_BINARY, block, 6)
        found = _zxing(clear) or _zbar(clear)
        if found:
            shift = np.array([left, top], dtype=np.float64)
            return [(text, at + shift, modules) for text, at, modules in _scaled(found, scale)]
    return []


def _zxing_double(grey: Grey) -> Found:
    double = cv2.resize(grey, None, fx=2.0, fy=2.0, interpolation=cv2.INTER_CUBIC)
    return _scaled(_zxing(double), 2.0)


def _zxing(grey: Grey) -> Found:
    found: Found = []
    for code in zxingcpp.read_barcodes(grey, formats=_QR):
        at = code.position
        corners = np.array(
            [[p.x, p.y] for p in (at.top_left, at.top_right, at.bottom_right, at.bottom_left)],
            dtype=np.float64,
        )
        found.append((code.text, corners, _modules(code.extra)))
    return found


def _modules(extra: object) -> int | None:
    """Modules along an edge, from the version that the decoder reports."""
    version = extra.get("Version") if isinstance(extra, dict) else None
    return 17 + 4 * int(version) if version is not None and str(version).isdigit() else None


def _zbar(grey: Grey) -> Found:
    small, scale = within(grey, _SMALL_EDGE_PX)
    found: Found = []
    for code in pyzbar.decode(small, symbols=[pyzbar.ZBarSymbol.QRCODE]):
        if len(code.polygon) == 4:
            corners = np.array([[p.x, p.y] for p in code.polygon], dtype=np.float64)
            found.append((code.data.decode("utf-8", "replace"), corners, None))
    return _scaled(found, scale)


def _scaled(found: Found, scale: float) -> Found:
    return [(text, (corners + 0.5) / scale - 0.5, modules) for text, corners, modules in found]


def _is_known(text: str, corners: Points, marks: list[LabelMark]) -> bool:
    """Whether this symbol lies where one has been read already."""
    size = float(np.linalg.norm(corners[0] - corners[2]))
    return any(
        float(np.linalg.norm(corners.mean(0) - mark.corners.mean(0)))
        < (0.35 if text == mark.text else 0.2) * size
        for mark in marks
    )


def _mark(grey: Grey, text: str, rough: Points, modules: int | None) -> LabelMark:
    if modules is None:
        rough, modules = ordered_symbol(grey, rough)
    if modules is None:
        turned = cv2.contourArea(rough.astype(np.float32), oriented=True) < 0
        return LabelMark(text, rough[::-1] if turned else rough, None)
    corners = refine_corners(grey, rough, modules)
    edge = float(np.mean(np.linalg.norm(corners - np.roll(corners, 1, 0), axis=1)))
    return LabelMark(text, corners, edge / modules)
