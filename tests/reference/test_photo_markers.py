"""The count mat's corner markers against OpenCV's ArUco dictionary DICT_4X4_50, and its detector."""

import cv2
import numpy as np
import pytest

from lastbolt.vision.mat import MARKER_MM, mat_marker, view_mat

DICTIONARY = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
FIELD = (260.0, 160.0)


@pytest.mark.parametrize("number", range(4))
def test_each_marker_is_the_dictionarys_own(number: int) -> None:
    theirs = cv2.aruco.generateImageMarker(DICTIONARY, number, 6, borderBits=1)
    assert np.array_equal(np.array(mat_marker(number)), theirs == 0)


def _sheet(px_per_mm: int) -> np.ndarray:
    width, height, edge = (round(v * px_per_mm) for v in (*FIELD, MARKER_MM))
    sheet = np.full((height, width), 255, np.uint8)
    places = [(0, 0), (width - edge, 0), (width - edge, height - edge), (0, height - edge)]
    for number, (x, y) in enumerate(places):
        cells = np.array(mat_marker(number))
        bits = np.where(np.kron(cells, np.ones((edge // 6, edge // 6))) > 0, 0, 255)
        sheet[y : y + bits.shape[0], x : x + bits.shape[1]] = bits
    cv2.circle(sheet, (130 * px_per_mm, 80 * px_per_mm), 10 * px_per_mm, 90, -1)
    return np.pad(sheet, 60, constant_values=255)


def test_a_tilted_sheet_is_flattened_to_its_scale() -> None:
    sheet = _sheet(6)
    height, width = sheet.shape
    corners = np.float32([[0, 0], [width, 0], [width, height], [0, height]])
    seen = np.float32([[150, 120], [1350, 60], [1480, 900], [60, 980]])
    photo = cv2.warpPerspective(
        sheet, cv2.getPerspectiveTransform(corners, seen), (1600, 1100), flags=cv2.INTER_AREA, borderValue=120
    )
    view = view_mat(np.stack([photo] * 3, axis=-1), FIELD, mm_per_px=0.25)
    assert view
    assert view.image.shape == (640, 1040, 3)
    assert view.misfit_mm < 0.15
    dark = view.image[200:440, 400:640, 0] < 150
    assert np.sqrt(dark.sum() * 4 / np.pi) * 0.25 == pytest.approx(20.0, abs=0.2)  # mm, the drawn disc
    assert np.argwhere(dark).mean(0) == pytest.approx([120, 120], abs=1.5)


def test_a_sheet_with_too_few_markers_is_refused_in_words() -> None:
    photo = np.full((600, 800, 3), 200, np.uint8)
    refused = view_mat(photo, FIELD)
    assert not refused
    assert "markers" in refused.reason
