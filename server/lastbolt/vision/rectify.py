"""From a label's corners to the plane that the parts lie on: millimetres from pixels, with uncertainty."""

import math
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.corners import square_corners
from lastbolt.vision.outcome import PhotoFacts, Points

_PHONE_FOCAL = 0.707
"""Focal length over the picture's diagonal of a phone's main camera (26 mm on 43.3 mm film is 0.60, a field
of view of 70 degrees is 0.71); common practice, no source."""
_FILM_DIAGONAL_MM = 43.27
CORNER_SIGMA_PX = 0.15
FOCAL_SIGMA = 0.08
WIDE_LENS_MM = 22.0
"""Focal length (35 mm equivalent) below which a phone's lens is its wide one."""
_LENS_SIGMA, _UNKNOWN_LENS_SIGMA, _WIDE_LENS_SIGMA = 0.004, 0.006, 0.02
"""How far an uncorrected lens moves the picture's corner, as a share of its distance from the middle; common
practice, no source."""

Matrix = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Plane:
    """The plane of a label seen by a pinhole camera; millimetres with the symbol's middle at (0, 0).

    World axes: x to the symbol's right, y down, z away from the camera. `rise_mm` is how far the label lies
    above the surface under the parts (0 unless it is on a raised lip), `rise_sigma_mm` how sure that is.
    """

    camera: Matrix
    rotation: Matrix
    shift: npt.NDArray[np.float64]
    tilt_sigma: float
    """Standard deviation of the plane's direction, radians."""
    scale_sigma: float
    """Relative standard deviation of the scale at the label itself."""
    rise_mm: float = 0.0
    rise_sigma_mm: float = 0.0
    anchors: Points | None = None
    """Pixels that the scale was taken from: the lens bends a place unlike them by `lens_sigma` at most."""
    lens_sigma: float = 0.0

    def floor_points(self, points: Points, height_mm: float | npt.NDArray[np.float64] = 0.0) -> Points:
        """Pixels (x, y) to millimetres on the plane `height_mm` above the parts' surface."""
        rays = np.c_[points, np.ones(len(points))] @ np.linalg.inv(self.camera).T @ self.rotation
        eye = -self.rotation.T @ self.shift
        depth = (self.rise_mm - np.asarray(height_mm) - eye[2]) / rays[:, 2]
        return np.asarray(eye[:2] + rays[:, :2] * np.reshape(depth, (-1, 1)), dtype=np.float64)

    def mm_per_px(self, point: Points, height_mm: float = 0.0) -> float:
        """Millimetres that one pixel spans at a place, measured square to the line of sight."""
        at = self.floor_points(np.reshape(point, (1, 2)), height_mm)[0]
        world = np.array([at[0], at[1], self.rise_mm - height_mm])
        depth = float((self.rotation @ world + self.shift)[2])
        return depth / float(self.camera[0, 0])

    def scale_sigma_at(self, point: Points) -> float:
        """Relative standard deviation of a length at a place.

        It grows with distance from the label, and with how much farther than the label the place lies from
        the picture's middle (or nearer): lens distortion is not corrected.
        """
        away = float(np.linalg.norm(self.floor_points(np.reshape(point, (1, 2)))[0]))
        depth = float(self.shift[2])
        lens = self.lens_sigma_at(point)
        return math.hypot(self.scale_sigma, away * self.tilt_sigma / depth, self.rise_sigma_mm / depth, lens)

    def lens_sigma_at(self, point: Points) -> float:
        """The share of it that the lens has: its scale goes as 1 + 2 k r^2, r = 1 in the picture's corner."""
        if self.anchors is None:
            return 0.0
        middle = self.camera[:2, 2]
        square = (np.vstack([point, self.anchors]) - middle) ** 2 / float(((middle + 0.5) ** 2).sum())
        radii = square.sum(1)
        return 2.0 * self.lens_sigma * abs(float(radii[0] - radii[1:].mean()))


def focal_px(facts: PhotoFacts) -> float:
    """Focal length in pixels: from EXIF where it tells the 35 mm equivalent, else a phone's usual one."""
    diagonal = math.hypot(facts.width, facts.height)
    if facts.focal_35mm is not None and 10 <= facts.focal_35mm <= 300:
        return diagonal * facts.focal_35mm / _FILM_DIAGONAL_MM
    return diagonal * _PHONE_FOCAL


def lens_sigma(facts: PhotoFacts) -> float:
    """How much the lens may bend the picture's corner: less for a known main lens, more for a wide one."""
    if facts.focal_35mm is None:
        return _UNKNOWN_LENS_SIGMA
    return _WIDE_LENS_SIGMA if facts.focal_35mm < WIDE_LENS_MM else _LENS_SIGMA


def camera_matrix(facts: PhotoFacts) -> Matrix:
    """The pinhole camera of a photo, its axis through the middle of the picture; no lens distortion."""
    focal = focal_px(facts)
    middle = ((facts.width - 1) / 2, (facts.height - 1) / 2)
    return np.array([[focal, 0, middle[0]], [0, focal, middle[1]], [0, 0, 1]])


def plane_from_label(corners: Points, symbol_mm: float, facts: PhotoFacts) -> Plane | None:
    """The label's plane from its symbol's four corners, or None when no pose fits them to three pixels."""
    camera = camera_matrix(facts)
    world = np.c_[square_corners(symbol_mm) - symbol_mm / 2, np.zeros(4)]
    count, turns, shifts, errors = cv2.solvePnPGeneric(world, corners, camera, None, flags=cv2.SOLVEPNP_IPPE)
    if not count:
        return None
    best = int(np.argmin(np.asarray(errors).ravel()))
    if float(np.asarray(errors).ravel()[best]) > 3.0:
        return None
    turn, shift = cv2.solvePnPRefineLM(world, corners, camera, None, turns[best], shifts[best])
    _, jacobian = cv2.projectPoints(world, turn, shift, camera, None)
    normal = np.asarray(jacobian)[:, :6].T @ np.asarray(jacobian)[:, :6]
    spread = np.linalg.pinv(normal) * CORNER_SIGMA_PX**2
    rotation, _ = cv2.Rodrigues(turn)
    tilt = math.acos(min(1.0, abs(float(np.asarray(rotation)[2, 2]))))
    edge = float(np.linalg.norm(corners - np.roll(corners, 1, 0), axis=1).mean())
    return Plane(
        camera=camera,
        rotation=np.asarray(rotation, dtype=np.float64),
        shift=np.asarray(shift, dtype=np.float64).ravel(),
        tilt_sigma=math.hypot(math.sqrt(float(np.trace(spread[:3, :3])) / 2), FOCAL_SIGMA * math.tan(tilt)),
        scale_sigma=1.5 * CORNER_SIGMA_PX / edge,
        anchors=corners,
        lens_sigma=lens_sigma(facts),
    )
