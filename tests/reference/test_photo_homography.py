"""Homography and pose against OpenCV's own solvers on known points."""

import cv2
import numpy as np
import pytest

from lastbolt.vision.corners import homography, map_points, square_corners
from lastbolt.vision.outcome import PhotoFacts
from lastbolt.vision.rectify import focal_px, plane_from_label

FACTS = PhotoFacts("JPEG", 1600, 1200, 1, None, None, None, None)


def test_four_points_give_the_matrix_that_opencv_gives() -> None:
    source = square_corners(25.0)
    target = np.array([[310.2, 205.9], [402.7, 214.3], [395.0, 300.8], [301.1, 296.6]])
    theirs = cv2.getPerspectiveTransform(source.astype(np.float32), target.astype(np.float32))
    assert homography(source, target) == pytest.approx(theirs, abs=1e-6)
    assert map_points(homography(source, target), source) == pytest.approx(target, abs=1e-3)


def test_many_points_give_the_matrix_that_opencv_gives() -> None:
    rng = np.random.default_rng(5)
    true = np.array([[1.9, 0.2, 40.0], [-0.1, 2.1, 75.0], [0.0004, -0.0003, 1.0]])
    source = rng.uniform(0, 300, (12, 2))
    target = map_points(true, source)
    theirs, _ = cv2.findHomography(source, target, cv2.RANSAC, 1.0)
    assert homography(source, target) == pytest.approx(true, rel=1e-5, abs=1e-7)
    assert homography(source, target) == pytest.approx(theirs, rel=1e-5, abs=1e-7)


@pytest.mark.parametrize(("tilt", "turn"), [(0.05, 0.3), (0.3, -1.2), (0.6, 2.0)])
def test_the_plane_of_a_label_puts_points_where_opencv_projects_them(tilt: float, turn: float) -> None:
    focal = focal_px(FACTS)
    camera = np.array([[focal, 0, 799.5], [0, focal, 599.5], [0, 0, 1]])
    axis, _ = cv2.Rodrigues(np.array([0, 0, turn]))
    lean, _ = cv2.Rodrigues(np.array([tilt, 0, 0]))
    pose = cv2.Rodrigues(lean @ axis)[0]
    shift = np.array([-60.0, 30.0, 350.0])
    world = np.c_[square_corners(25.0) - 12.5, np.zeros(4)]
    corners = cv2.projectPoints(world, pose, shift, camera, None)[0].reshape(4, 2)
    plane = plane_from_label(corners, 25.0, FACTS)
    assert plane is not None
    there = np.array([[80.0, -40.0, 0.0], [120.0, 25.0, -6.0]])  # the second 6 mm above the plane
    pixels = cv2.projectPoints(there, pose, shift, camera, None)[0].reshape(2, 2)
    assert plane.floor_points(pixels, np.array([0.0, 6.0])) == pytest.approx(there[:, :2], abs=0.02)


def test_scale_is_less_sure_far_from_the_label() -> None:
    corners = np.array([[400.0, 400.0], [500.0, 402.0], [498.0, 502.0], [399.0, 500.0]])
    plane = plane_from_label(corners, 25.0, FACTS)
    assert plane is not None
    sigmas = [plane.scale_sigma_at(np.array([x, 450.0])) for x in (450.0, 800.0, 1500.0)]
    assert sigmas[0] < sigmas[1] < sigmas[2] < 0.05
