"""A large picture is read in two halves; that changes next to nothing."""

from pathlib import Path

import cv2
import numpy as np
import pytest

from lastbolt.vision import network

SAMPLE = Path(__file__).parents[2] / "samples" / "photos" / "12-thermostat-housing-bolts.jpg"


@pytest.mark.parametrize("size", [(1216, 912), (920, 1230)])
def test_two_halves_say_what_the_whole_says(size: tuple[int, int], monkeypatch: pytest.MonkeyPatch) -> None:
    picture = cv2.resize(cv2.imread(str(SAMPLE), cv2.IMREAD_COLOR_RGB), size, interpolation=cv2.INTER_AREA)
    halves = network.read_maps(picture)
    monkeypatch.setattr(network, "_AT_ONCE", 10**9)
    whole = network.read_maps(picture)
    part = whole.mask > 0.5
    assert part.sum() > 500 and np.count_nonzero((halves.mask > 0.5) != part) < 0.01 * part.sum()
    assert np.abs(halves.heat - whole.heat).max() < 0.1
    assert np.median(np.linalg.norm(halves.tip - whole.tip, axis=2)[part]) < 0.2
