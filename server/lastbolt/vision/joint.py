"""Several labels in one picture: one plane through all of them where they do lie in one plane."""

import math
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.corners import square_corners
from lastbolt.vision.outcome import PhotoFacts, Points
from lastbolt.vision.rectify import CORNER_SIGMA_PX, FOCAL_SIGMA, Plane, lens_sigma

_STEPS = 10
_STILL_PX = 0.005
_HEIGHT_SIGMA_MM = 0.7
"""How far a label's middle may lie from the common surface, by paper, glue or a bag's film; common practice,
no source."""
_MOST_MISFIT = 2.0
"""Squared misfit over its expectation from which the labels are said to lie on different planes."""

Vector = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class _Seen:
    """What is fitted: each label's corners (pixels), its symbol's edge (mm), and the camera."""

    corners: list[Points]
    edges_mm: list[float]
    camera: Vector

    def projected(self, state: Vector) -> Vector:
        """Pixels of all corners; the state is the plane's pose, then x, y, turn and height of each label."""
        world = [self._placed(k, state[6 + 4 * k : 10 + 4 * k]) for k in range(len(self.corners))]
        points, _ = cv2.projectPoints(np.concatenate(world), state[:3], state[3:6], self.camera, None)
        return np.asarray(points, dtype=np.float64).ravel()

    def _placed(self, k: int, place: Vector) -> Points:
        flat = square_corners(self.edges_mm[k]) - self.edges_mm[k] / 2
        c, s = math.cos(place[2]), math.sin(place[2])
        laid = flat @ np.array([[c, s], [-s, c]]) + place[:2]
        return np.asarray(np.c_[laid, np.full(4, -place[3])], dtype=np.float64)


def joint_plane(
    planes: list[Plane], corners: list[Points], edges_mm: list[float], facts: PhotoFacts
) -> Plane | None:
    """One plane fitted to two labels or more, or None when they do not lie in one.

    `planes` are those that each label gives alone. Fitted together (Gauss-Newton on the pinhole projection)
    are the plane's pose and each label's place, turn and small height on it. Labels on different heights, or
    tilted against each other, leave a misfit that the corners' own scatter does not explain.
    Millimetres start at the middle of the labels.
    """
    seen = _Seen(corners, edges_mm, planes[0].camera)
    pixels = np.concatenate(corners).ravel()
    state = _start(planes, seen)
    fixed = list(range(6, 9))  # the first label is where the plane's axes start
    free = [k for k in range(len(state)) if k not in fixed]
    weight = 1 / CORNER_SIGMA_PX
    jacobian, gone = _linear(seen, state, free, pixels)
    for _ in range(_STEPS):
        move = np.linalg.lstsq(jacobian * weight, gone * weight, rcond=None)[0]
        state[free] += move
        jacobian, gone = _linear(seen, state, free, pixels)
        if float(np.abs(jacobian @ move).max()) < _STILL_PX:
            break
    squared = float((gone**2).sum()) * weight**2
    spare = len(pixels) - (len(free) - len(corners))
    if not math.isfinite(squared) or squared > _MOST_MISFIT * spare:
        return None
    spread = np.linalg.pinv(jacobian.T @ jacobian)[:6, :6] * CORNER_SIGMA_PX**2 * max(1.0, squared / spare)
    return _plane(state, np.asarray(spread, dtype=np.float64), seen, facts)


def _start(planes: list[Plane], seen: _Seen) -> Vector:
    """The first label's own pose, and the others where their pixels lie on it."""
    first = planes[0]
    turn, _ = cv2.Rodrigues(first.rotation)
    places = [np.zeros(4)]
    for corners in seen.corners[1:]:
        flat = first.floor_points(corners)
        along = flat[1] - flat[0]
        places.append(np.array([*flat.mean(0), math.atan2(along[1], along[0]), 0.0]))
    return np.concatenate([np.asarray(turn).ravel(), first.shift, *places])


def _linear(seen: _Seen, state: Vector, free: list[int], pixels: Vector) -> tuple[Vector, Vector]:
    """Slopes and misfits at a state, in pixels; a row more a label holds its height near nought."""
    here = seen.projected(state)
    heights = [9 + 4 * k for k in range(len(seen.corners))]
    slopes = np.zeros((len(pixels) + len(heights), len(free)))
    for column, k in enumerate(free):
        step = np.zeros(len(state))
        step[k] = 1e-5 if k < 3 else 1e-3
        slopes[: len(pixels), column] = (seen.projected(state + step) - here) / step[k]
    scale = CORNER_SIGMA_PX / _HEIGHT_SIGMA_MM
    for row, k in enumerate(heights):
        slopes[len(pixels) + row, free.index(k)] = scale
    return slopes, np.concatenate([pixels - here, -state[heights] * scale])


def _plane(state: Vector, spread: Vector, seen: _Seen, facts: PhotoFacts) -> Plane:
    """The fitted plane about the labels' middle, with what its pose's spread says there."""
    places = state[6:].reshape(-1, 4)
    middle = np.array([*places[:, :2].mean(0), 0.0])
    rotation = np.asarray(cv2.Rodrigues(state[:3])[0], dtype=np.float64)
    shift = rotation @ middle + state[3:6]
    slope = np.zeros(6)
    for k in range(3):
        step = np.zeros(3)
        step[k] = 1e-5
        slope[k] = (np.asarray(cv2.Rodrigues(state[:3] + step)[0])[2] @ middle - rotation[2] @ middle) / 1e-5
    slope[5] = 1.0
    tilt = math.acos(min(1.0, abs(float(rotation[2, 2]))))
    return Plane(
        camera=seen.camera,
        rotation=rotation,
        shift=shift,
        tilt_sigma=math.hypot(math.sqrt(float(np.trace(spread[:3, :3])) / 2), FOCAL_SIGMA * math.tan(tilt)),
        scale_sigma=math.sqrt(float(slope @ spread @ slope)) / float(shift[2]),
        anchors=np.concatenate(seen.corners),
        lens_sigma=lens_sigma(facts),
    )
