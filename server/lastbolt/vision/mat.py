"""The count mat: a printed sheet with a marker in each corner, flattened to a known scale.

The markers 0 to 3 stand at the top left, top right, bottom right and bottom left. Each is a square of
MARKER_MM whose outer corner coincides with the corner of the marked field. They are the first four of the
public ArUco dictionary of 4 x 4 bits with 50 members.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from lastbolt.said import said
from lastbolt.vision.corners import homography, map_points, refine_pattern
from lastbolt.vision.outcome import Image, Points, Unusable
from lastbolt.vision.scale import within

MARKER_MM = 15.0
_SEARCH_EDGE_PX = 1600
MARKERS: tuple[tuple[str, ...], ...] = (
    ("######", "#.#..#", "##.#.#", "###..#", "###.##", "######"),
    ("######", "######", "#....#", "#.##.#", "#.#.##", "######"),
    ("######", "###..#", "###..#", "###.##", "#..#.#", "######"),
    ("######", "#.##.#", "#.##.#", "##.###", "##..##", "######"),
)
"""Cells of each marker, row by row; `#` is black. The white quiet zone around it is not part of it."""

AROUND_MM = {
    (190.0, 255.0): (10.0, 10.0, 10.0, 32.0),
    (130.0, 165.0): (9.0, 9.0, 9.0, 36.0),
    (190.0, 235.0): (12.9, 12.0, 12.9, 32.4),
}
"""Width and height of the printed mats' fields, and the paper left, above, right of and below each."""
_OTHER_AROUND_MM = (8.0, 8.0, 8.0, 8.0)
_FIELD_OFF_MM = 4.0


@dataclass(frozen=True, slots=True, eq=False)
class MatView:
    """The mat's field from above: its pixels, their size, and the way back to the photo."""

    image: Image
    mm_per_px: float
    field_px: Points
    """The field's corners in the photo: top left, top right, bottom right, bottom left."""
    misfit_mm: float
    """How far the markers' printed corners lie from where the plane puts them, root mean square."""


def mat_marker(number: int) -> tuple[tuple[bool, ...], ...]:
    """Cells of the marker for corner 0..3 (top left, top right, bottom right, bottom left); True is black."""
    return tuple(tuple(cell == "#" for cell in row) for row in MARKERS[number])


def view_mat(image: Image, field_mm: tuple[float, float], *, mm_per_px: float = 0.25) -> MatView | Unusable:
    """Flatten the mat's field (width, height in mm) from the markers in a photo; three markers are enough."""
    found = find_markers(image)
    if len(found) < 3:
        return Unusable(
            said("Only {n} of the mat's four markers were seen; show the whole sheet.", n=len(found))
        )
    world = np.concatenate([marker_corners_mm(number, field_mm) for number in found])
    pixels = np.concatenate(list(found.values()))
    to_photo = homography(world, pixels)
    width, height = field_mm
    field = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)
    field_px = map_points(to_photo, field)
    to_mat = np.asarray(np.linalg.inv(to_photo), dtype=np.float64)
    back = map_points(to_mat, pixels)
    misfit = float(np.sqrt(((back - world) ** 2).sum(1).mean()))
    size = (round(width / mm_per_px), round(height / mm_per_px))
    place = np.array([[mm_per_px, 0, mm_per_px / 2], [0, mm_per_px, mm_per_px / 2], [0, 0, 1]])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    flat = cv2.warpPerspective(image, to_photo @ place, size, flags=flags)
    return MatView(np.asarray(flat, dtype=np.uint8), mm_per_px, field_px, misfit)


def sheet_corners(field_px: Points, field_mm: tuple[float, float]) -> Points:
    """The paper's corners in the photo from those of the field that is marked on it, less a millimetre.

    Parts lie on the paper's margin too. A field of no printed mat's size is taken to have 8 mm around.
    """
    width, height = field_mm
    sizes = [size for size in AROUND_MM if max(abs(size[0] - width), abs(size[1] - height)) < _FIELD_OFF_MM]
    left, top, right, bottom = AROUND_MM[sizes[0]] if sizes else _OTHER_AROUND_MM
    field = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float64)
    x0, y0, x1, y1 = 1 - left, 1 - top, width + right - 1, height + bottom - 1
    paper = np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]], dtype=np.float64)
    return map_points(homography(field, field_px), paper)


def find_markers(image: Image) -> dict[int, Points]:
    """Corners (x, y) of the mat's markers in a photo by number, clockwise from each marker's own top left."""
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY)
    small, scale = within(grey, _SEARCH_EDGE_PX)
    settings = cv2.aruco.DetectorParameters()
    settings.adaptiveThreshWinSizeMin = settings.adaptiveThreshWinSizeMax = 23
    detector = cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50), settings)
    corners, numbers, _ = detector.detectMarkers(small)
    if numbers is None:
        return {}
    pairs = zip(np.asarray(numbers).ravel(), corners, strict=True)
    rough = {int(n): np.asarray(c, dtype=np.float64).reshape(4, 2) for n, c in pairs if 0 <= int(n) <= 3}
    whole = {number: (points + 0.5) / scale - 0.5 for number, points in rough.items()}
    return {n: refine_pattern(grey, points, np.array(mat_marker(n))) for n, points in whole.items()}


def marker_corners_mm(number: int, field_mm: tuple[float, float]) -> Points:
    """The marker's own corners on the sheet, clockwise from its top left."""
    x = 0.0 if number in (0, 3) else field_mm[0] - MARKER_MM
    y = 0.0 if number in (0, 1) else field_mm[1] - MARKER_MM
    square = [[x, y], [x + MARKER_MM, y], [x + MARKER_MM, y + MARKER_MM], [x, y + MARKER_MM]]
    return np.array(square, dtype=np.float64)
