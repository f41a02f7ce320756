"""QR symbols made by another library (segno 1.6, every version 1 to 10 at every level) are read back."""

import cv2
import numpy as np
import pytest
import segno

from lastbolt.vision.decode import find_labels

CAPACITY = {"L": 17, "M": 14, "Q": 11, "H": 7}  # bytes that fit version 1, ISO/IEC 18004 table 7


def _symbol(text: str, version: int, level: str, scale: int) -> np.ndarray:
    rows = list(
        segno.make(text, version=version, error=level, mode="byte", micro=False, boost_error=False).matrix
    )
    bits = np.array([[255 * (1 - cell) for cell in row] for row in rows], dtype=np.uint8)
    return np.kron(np.pad(bits, 4, constant_values=255), np.ones((scale, scale), dtype=np.uint8))


@pytest.mark.parametrize("level", "LMQH")
@pytest.mark.parametrize("version", range(1, 11))
def test_every_version_and_level_is_read_with_its_corners(version: int, level: str) -> None:
    text = f"T{version}{level}-9F"
    assert len(text) <= CAPACITY[level]
    drawn = _symbol(text, version, level, 5)
    edge = (17 + 4 * version) * 5
    turn = cv2.getRotationMatrix2D((drawn.shape[1] / 2, drawn.shape[0] / 2), 17.0, 0.9)
    turn[:, 2] += 150
    picture = cv2.warpAffine(drawn, turn, (700, 700), borderValue=255, flags=cv2.INTER_AREA)
    marks = find_labels(picture)
    assert [mark.text for mark in marks] == [text]
    corners = np.array([[0, 0], [edge, 0], [edge, edge], [0, edge]]) + 20 - 0.5
    wanted = np.c_[corners, np.ones(4)] @ turn.T
    assert np.abs(marks[0].corners - wanted).max() < 0.35  # pixels
    assert marks[0].px_per_module == pytest.approx(4.5, abs=0.05)


def test_a_mirror_of_turns_gives_the_symbols_own_order() -> None:
    drawn = np.pad(_symbol("UPSIDE", 2, "M", 6), 60, constant_values=255)
    upright, turned = find_labels(drawn), find_labels(np.rot90(drawn, 2).copy())
    size = drawn.shape[0] - 1
    assert np.abs((size - turned[0].corners) - upright[0].corners).max() < 0.3
