"""Making a picture smaller by halves first, held against plain means."""

import numpy as np
import pytest

from lastbolt.vision.scale import made_smaller, within


def _picture(height: int, width: int) -> np.ndarray:
    return np.random.default_rng(5).integers(0, 256, (height, width, 3), dtype=np.uint8)


def test_a_quarter_is_the_mean_of_sixteen_pixels() -> None:
    picture = _picture(64, 96)
    mean = picture.reshape(16, 4, 24, 4, 3).mean((1, 3))
    assert np.abs(made_smaller(picture, (24, 16)).astype(float) - mean).max() <= 1.01


@pytest.mark.parametrize("shape", [(61, 97), (60, 97), (600, 800)])
def test_any_size_keeps_the_mean_brightness(shape: tuple[int, int]) -> None:
    picture = _picture(*shape)
    small = made_smaller(picture, (23, 14))
    assert small.shape == (14, 23, 3) and float(small.mean()) == pytest.approx(float(picture.mean()), abs=1.5)


def test_within_says_how_much_smaller_and_leaves_small_ones_alone() -> None:
    small, scale = within(_picture(300, 400), 100)
    assert small.shape == (75, 100, 3) and scale == 0.25
    same, one = within(small, 100)
    assert same is small and one == 1.0
