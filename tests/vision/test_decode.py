"""Labels in drawn pictures: several, dim, blurred, far away, none."""

import cv2
import numpy as np
import pytest
import segno

from lastbolt.vision.decode import find_labels
from lastbolt.vision.finders import unexplained_finders, unread_regions


def _symbol(text: str, scale: int) -> np.ndarray:
    bits = np.array(
        [[255 * (1 - cell) for cell in row] for row in segno.make(text, error="m", micro=False).matrix]
    )
    return np.kron(np.pad(bits, 4, constant_values=255), np.ones((scale, scale))).astype(np.uint8)


def _scene(
    *placed: tuple[str, int, int, int], size: tuple[int, int] = (900, 1200), floor: int = 130
) -> np.ndarray:
    scene = np.full(size, floor, np.uint8)
    for text, scale, row, col in placed:
        drawn = _symbol(text, scale)
        scene[row : row + drawn.shape[0], col : col + drawn.shape[1]] = drawn
    return scene


def test_every_label_in_the_frame_is_found_from_the_top_down() -> None:
    scene = _scene(("ONE-1", 6, 40, 60), ("TWO-2", 4, 300, 700), ("THREE-3", 5, 620, 200))
    assert [mark.text for mark in find_labels(scene)] == ["ONE-1", "TWO-2", "THREE-3"]


def test_a_label_in_half_shadow_blurred_and_noisy_is_read() -> None:
    scene = _scene(("SHADE-7", 6, 300, 400)).astype(float)
    scene *= np.where(np.arange(1200) < 480, 0.25, 1.0)
    scene = cv2.GaussianBlur(scene, (0, 0), 1.6) + np.random.default_rng(3).normal(0, 6, scene.shape)
    marks = find_labels(scene.clip(0, 255).astype(np.uint8))
    assert [mark.text for mark in marks] == ["SHADE-7"]


@pytest.mark.parametrize("tilt", [25, 50])
def test_a_tilted_label_is_read_and_its_corners_lie_on_it(tilt: int) -> None:
    drawn = np.pad(_symbol("TILT-3", 8), 40, constant_values=190)
    height, width = drawn.shape
    lean = np.cos(np.radians(tilt))
    corners = np.float32([[0, 0], [width, 0], [width, height], [0, height]])
    inset = 0.12 * width * np.sin(np.radians(tilt))
    seen = np.float32([[inset, 0], [width - inset, 0], [width, height * lean], [0, height * lean]]) + 100
    matrix = cv2.getPerspectiveTransform(corners, seen)
    picture = cv2.warpPerspective(drawn, matrix, (700, 600), flags=cv2.INTER_AREA, borderValue=190)
    marks = find_labels(picture)
    assert [mark.text for mark in marks] == ["TILT-3"]
    box = np.array([[72, 72], [width - 72, 72], [width - 72, height - 72], [72, height - 72]]) - 0.5
    there = np.c_[box, np.ones(4)] @ matrix.T
    assert np.abs(marks[0].corners - there[:, :2] / there[:, 2:]).max() < 0.5  # pixels


def test_one_label_is_never_reported_twice() -> None:
    scene = _scene(("TWICE", 7, 200, 300))
    assert len(find_labels(cv2.GaussianBlur(scene, (0, 0), 2.0))) == 1


def test_a_picture_without_labels_gives_none() -> None:
    noise = np.random.default_rng(1).integers(0, 255, (400, 500), dtype=np.uint8)
    assert find_labels(noise) == []
    assert find_labels(np.zeros((64, 64, 3), np.uint8)) == []


def test_finder_patterns_outside_the_read_symbols_are_noticed() -> None:
    scene = _scene(("SEEN", 6, 100, 100), ("UNSEEN", 6, 500, 700))
    marks = find_labels(scene)
    assert not unexplained_finders(scene, [mark.corners for mark in marks])
    assert unexplained_finders(scene, [marks[0].corners])


def test_the_picture_is_left_as_it_was() -> None:
    scene = _scene(("KEEP", 6, 100, 100))
    before = scene.copy()
    find_labels(scene)
    assert np.array_equal(scene, before)


def _overexposed() -> np.ndarray:
    """A small symbol on burnt-out paper: the white has bled into the black, and its finders are broken."""
    scene = _scene(("BURNT-5", 8, 240, 400), floor=110).astype(np.float32)
    bled = cv2.GaussianBlur(scene, (0, 0), 3.4) * 2.6
    small = cv2.resize(bled.clip(0, 255), None, fx=0.35, fy=0.35, interpolation=cv2.INTER_AREA)
    return np.pad(small, 150, constant_values=110).astype(np.uint8)


def test_a_small_overexposed_label_is_read_with_its_corners_running_clockwise() -> None:
    marks = find_labels(_overexposed())
    assert [mark.text for mark in marks] == ["BURNT-5"]
    assert cv2.contourArea(marks[0].corners.astype(np.float32), oriented=True) > 500


def test_regions_of_unread_symbols_hold_them_and_go_away_once_read() -> None:
    scene = _scene(("ONE-1", 6, 40, 60), ("TWO-2", 6, 600, 900))
    regions = unread_regions(scene, [])
    assert len(regions) == 2
    corners = [mark.corners for mark in find_labels(scene)]
    for quad in corners:
        assert any(
            (quad.min(0) > region[:2]).all() and (quad.max(0) < region[2:]).all() for region in regions
        )
    assert unread_regions(scene, corners) == []
