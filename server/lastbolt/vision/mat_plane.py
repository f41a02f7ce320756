"""The plane of the count mat from its corner markers, when the sheet's own size is not known."""

import math

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.corners import square_corners
from lastbolt.vision.mat import MARKER_MM, find_markers, marker_corners_mm
from lastbolt.vision.outcome import Image, PhotoFacts, Points, Unusable
from lastbolt.vision.rectify import Plane, camera_matrix, lens_sigma

_STEPS = 12
_MOST_MISFIT_PX = 3.0

Vector = npt.NDArray[np.float64]


def plane_from_mat(image: Image, facts: PhotoFacts) -> tuple[Plane, list[Points], Points] | Unusable | None:
    """The sheet's plane, its markers' corners and its field's corners in pixels; None below three markers.

    Unusable, with the reason, where three markers or more are seen that fit no flat sheet to three pixels.
    The pose and the field's width and height are fitted together to the markers' corners (Gauss-Newton on
    the pinhole projection); millimetres start at the field's top left corner.
    """
    found = find_markers(image)
    if len(found) < 3:
        return None
    camera = camera_matrix(facts)
    state = _start(found, camera)
    pixels = np.concatenate(list(found.values())).ravel()
    jacobian = np.zeros((len(pixels), 8))
    for _ in range(_STEPS):
        here = _projected(state, list(found), camera)
        for k in range(8):
            step = np.zeros(8)
            step[k] = 1e-4 if k < 3 else 1e-2
            jacobian[:, k] = (_projected(state + step, list(found), camera) - here) / step[k]
        state = state + np.linalg.lstsq(jacobian, pixels - here, rcond=None)[0]
    misfit = pixels - _projected(state, list(found), camera)
    rms = float(np.sqrt((misfit**2).mean()))
    if not math.isfinite(rms) or rms > _MOST_MISFIT_PX:
        return Unusable(
            "the count mat's markers do not lie as on a flat sheet, so sizes are not taken from it; "
            "lay it flat and take it again"
        )
    spread = np.linalg.pinv(jacobian.T @ jacobian) * max(rms, 0.15) ** 2
    rotation, _ = cv2.Rodrigues(state[:3])
    plane = Plane(
        camera=camera,
        rotation=np.asarray(rotation, dtype=np.float64),
        shift=state[3:6],
        tilt_sigma=math.sqrt(float(np.trace(spread[:3, :3])) / 2),
        scale_sigma=math.sqrt(float(spread[5, 5])) / float(state[5]),
        anchors=np.concatenate(list(found.values())),
        lens_sigma=lens_sigma(facts),
    )
    width, height = float(state[6]), float(state[7])
    field = np.array([[0, 0, 0], [width, 0, 0], [width, height, 0], [0, height, 0]], dtype=np.float64)
    corners, _ = cv2.projectPoints(field, state[:3], state[3:6], camera, None)
    return plane, list(found.values()), np.asarray(corners, dtype=np.float64).reshape(4, 2)


def field_size_mm(plane: Plane, field_px: Points) -> tuple[float, float]:
    """Width and height of the field whose corners lie there in the photo."""
    places = plane.floor_points(field_px)
    return float(np.linalg.norm(places[1] - places[0])), float(np.linalg.norm(places[3] - places[0]))


def _start(found: dict[int, Points], camera: Vector) -> Vector:
    """Pose from the first marker alone, and the field's size from where the others' corners then lie."""
    corners = found[min(found)]
    world = np.c_[square_corners(MARKER_MM), np.zeros(4)]
    _, turn, shift = cv2.solvePnP(world, corners, camera, None, flags=cv2.SOLVEPNP_IPPE)
    rotation, _ = cv2.Rodrigues(turn)
    offset = np.asarray(shift, dtype=np.float64).ravel()
    plane = Plane(camera, np.asarray(rotation, dtype=np.float64), offset, 0.0, 0.0)
    places = np.concatenate([plane.floor_points(c) for c in found.values()])
    low, high = places.min(0), places.max(0)
    origin = np.array([low[0], low[1], 0.0])
    moved = np.asarray(rotation) @ origin + offset
    return np.concatenate([np.asarray(turn).ravel(), moved, high - low])


def _projected(state: Vector, numbers: list[int], camera: Vector) -> Vector:
    field = (float(state[6]), float(state[7]))
    flat = np.concatenate([marker_corners_mm(number, field) for number in numbers])
    world = np.c_[flat, np.zeros(len(flat))]
    points, _ = cv2.projectPoints(world, state[:3], state[3:6], camera, None)
    return np.asarray(points, dtype=np.float64).ravel()
