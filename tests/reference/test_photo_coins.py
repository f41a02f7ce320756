"""scikit-image's public sample photo `coins`: 24 coins on a dark cloth with uneven light."""

import numpy as np
import skimage.data

from lastbolt.vision.count import count_parts


def test_all_coins_are_counted() -> None:
    grey = skimage.data.coins()
    counted = count_parts(np.stack([grey] * 3, axis=-1), None, [])
    assert counted.count.count == 24
    assert counted.count.low <= 24 <= counted.count.high
    assert len(counted.parts) == 24
