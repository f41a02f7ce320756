"""Several labels in one plane against points projected by OpenCV, which is not ours."""

import math
from dataclasses import replace

import cv2
import numpy as np
import numpy.typing as npt
import pytest

from lastbolt.vision.corners import square_corners
from lastbolt.vision.joint import joint_plane
from lastbolt.vision.outcome import PhotoFacts, Points
from lastbolt.vision.rectify import Plane, camera_matrix, plane_from_label

FACTS = PhotoFacts("JPEG", 1600, 1200, 1, None, None, None, None)
CAMERA = camera_matrix(FACTS)
EDGE_MM = 25.0
NOISE_PX = 0.15
PLACES = ((-110.0, -70.0, 0.2), (105.0, 60.0, -1.4))
"""Where two labels lie: x, y in millimetres and turn in radians."""

Pose = tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]


def _pose(rng: np.random.Generator) -> Pose:
    lean = rng.normal(0, 0.2, 2)
    turn = cv2.Rodrigues(np.array([*lean, 0.0]))[0] @ cv2.Rodrigues(np.array([0, 0, rng.uniform(-3, 3)]))[0]
    axis = np.asarray(cv2.Rodrigues(turn)[0], dtype=np.float64)
    return axis.ravel(), np.array([rng.normal(0, 15), rng.normal(0, 15), 380.0])


def _pixels(world: npt.NDArray[np.float64], pose: Pose, bend: float = 0.0) -> Points:
    """OpenCV's projection; `bend` is its k1 where the picture's corner lies at radius 1 / focal length."""
    radius = math.hypot(800, 600) / CAMERA[0, 0]
    lens = np.array([bend / radius**2, 0, 0, 0, 0])
    return np.asarray(cv2.projectPoints(world, *pose, CAMERA, lens)[0], dtype=np.float64).reshape(-1, 2)


def _label(place: tuple[float, float, float], height_mm: float = 0.0) -> npt.NDArray[np.float64]:
    x, y, turn = place
    c, s = math.cos(turn), math.sin(turn)
    flat = (square_corners(EDGE_MM) - EDGE_MM / 2) @ np.array([[c, s], [-s, c]]) + [x, y]
    return np.asarray(np.c_[flat, np.full(4, -height_mm)], dtype=np.float64)


def _alone(corners: list[Points], facts: PhotoFacts = FACTS) -> list[Plane]:
    planes = [plane_from_label(four, EDGE_MM, facts) for four in corners]
    assert all(planes)
    return [plane for plane in planes if plane]


def _length(plane: Plane, ends_px: Points) -> float:
    ends = plane.floor_points(ends_px)
    return float(np.linalg.norm(ends[0] - ends[1]))


BOLT = np.array([[-25.0, -5.0, 0.0], [15.0, 25.0, 0.0]])
"""Two points 50 mm apart, between the labels."""


def test_exact_corners_give_the_exact_plane() -> None:
    pose = _pose(np.random.default_rng(3))
    corners = [_pixels(_label(place), pose) for place in PLACES]
    plane = joint_plane(_alone(corners), corners, [EDGE_MM] * 2, FACTS)
    assert plane is not None
    assert _length(plane, _pixels(BOLT, pose)) == pytest.approx(50.0, abs=0.005)


def test_two_labels_measure_better_than_one_and_as_well_as_they_say() -> None:
    rng = np.random.default_rng(11)
    errors, shares = [], []
    for _ in range(100):
        pose = _pose(rng)
        corners = [_pixels(_label(place), pose) + rng.normal(0, NOISE_PX, (4, 2)) for place in PLACES]
        alone = _alone(corners)
        plane = joint_plane(alone, corners, [EDGE_MM] * 2, FACTS)
        if plane is None:
            continue
        ends = _pixels(BOLT, pose)
        gone = [_length(one, ends) - 50.0 for one in (plane, alone[0])]
        errors.append(gone)
        shares.append(gone[0] / (50.0 * plane.scale_sigma_at(ends.mean(0))))
    assert len(errors) > 93  # labels that do lie in one plane are believed
    together, single = np.median(np.abs(errors), axis=0)
    assert together < 0.6 * single
    assert np.mean(np.abs(shares) <= 2) >= 0.95  # two standard deviations hold what they say
    assert np.mean(np.abs(shares) <= 1) >= 0.68


@pytest.mark.parametrize("height_mm", [19.0, 30.0])
def test_labels_on_different_heights_are_not_believed(height_mm: float) -> None:
    rng = np.random.default_rng(12)
    believed = 0
    for _ in range(40):
        pose = _pose(rng)
        world = [_label(PLACES[0]), _label(PLACES[1], height_mm)]
        corners = [_pixels(four, pose) + rng.normal(0, NOISE_PX, (4, 2)) for four in world]
        believed += joint_plane(_alone(corners), corners, [EDGE_MM] * 2, FACTS) is not None
    assert believed <= 4


def test_what_an_uncorrected_lens_does_lies_inside_the_doubt() -> None:
    pose = np.zeros(3), np.array([0.0, 0.0, 380.0])
    ends = np.array([[100.0, 60.0, 0.0], [140.0, 90.0, 0.0]])
    shares = []
    for bend in (-0.006, 0.006):
        corners = _pixels(_label((0.0, 0.0, 0.0)), pose, bend)
        (plane,) = _alone([corners])
        seen = _pixels(ends, pose, bend)
        gone = _length(plane, seen) - 50.0
        assert abs(gone) > 0.15
        shares.append(gone / (50.0 * plane.lens_sigma_at(seen.mean(0))))
    assert shares[0] * shares[1] < 0  # a barrel shortens, a cushion lengthens
    assert np.abs(shares).max() < 1.6


def test_a_wide_lens_carries_more_doubt_than_a_known_main_one() -> None:
    pose = np.zeros(3), np.array([0.0, 0.0, 380.0])
    corners = _pixels(_label((0.0, 0.0, 0.0)), pose)
    corner = np.array([1500.0, 1100.0])
    facts = [replace(FACTS, focal_35mm=focal) for focal in (26.0, None, 14.0)]
    doubts = [_alone([corners], one)[0].lens_sigma_at(corner) for one in facts]
    assert doubts[0] < doubts[1] < doubts[2]
    assert _alone([corners])[0].lens_sigma_at(corners.mean(0)) < 0.0005
