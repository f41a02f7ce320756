"""A wall between label and parts is told from an edge of the parts themselves, on drawn top views."""

import cv2
import numpy as np
import pytest

from lastbolt.vision.lip import is_on_lip

CORNERS = np.array([[250.0, 100.0], [350.0, 100.0], [350.0, 200.0], [250.0, 200.0]])  # 25 mm, 4 pixels a mm
NUT = np.array([[280.0, 480.0], [320.0, 480.0], [320.0, 520.0], [280.0, 520.0]])
BOLT = np.array([[180.0, 268.0], [440.0, 268.0], [440.0, 300.0], [180.0, 300.0]])


def _floor() -> np.ndarray:
    picture = np.full((600, 600, 3), 150, np.uint8)
    picture[90:210, 240:360] = 255
    cv2.fillPoly(picture, [NUT.astype(np.int32)], (60, 60, 60))
    return picture


def test_a_plain_floor_has_no_wall() -> None:
    assert not is_on_lip(_floor(), CORNERS, 25.0, [NUT])


@pytest.mark.parametrize("darker", [18, 60])
def test_a_step_across_the_whole_tray_is_a_wall(darker: int) -> None:
    picture = _floor()
    picture[280:420] -= np.uint8(darker)
    assert is_on_lip(picture, CORNERS, 25.0, [NUT])


def test_a_bolt_that_lies_along_the_label_is_no_wall() -> None:
    picture = _floor()
    cv2.fillPoly(picture, [BOLT.astype(np.int32)], (60, 60, 60))
    assert not is_on_lip(picture, CORNERS, 25.0, [NUT, BOLT])
    picture[326:420] -= np.uint8(40)  # a wall behind the bolt
    assert is_on_lip(picture, CORNERS, 25.0, [NUT, BOLT])


def test_a_wall_on_the_other_side_of_the_label_does_not_count() -> None:
    picture = _floor()
    picture[:40] -= np.uint8(60)
    assert not is_on_lip(picture, CORNERS, 25.0, [NUT])
