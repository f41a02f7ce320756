"""EXIF orientation 1 to 8, from the table of CIPA DC-008 as Pillow's exif_transpose shows it (values 9.4)."""

import io

import numpy as np
import pytest
from PIL import Image

from lastbolt.vision.pixels import read_photo

# Stored pixels ABC/DEF must be shown as these rows.
SHOWN = {
    1: ("ABC", "DEF"),
    2: ("CBA", "FED"),
    3: ("FED", "CBA"),
    4: ("DEF", "ABC"),
    5: ("AD", "BE", "CF"),
    6: ("DA", "EB", "FC"),
    7: ("FC", "EB", "DA"),
    8: ("CF", "BE", "AD"),
}
GREY = {"A": 10, "B": 50, "C": 90, "D": 130, "E": 170, "F": 210}
BLOCK = 24


def _grey(rows: tuple[str, ...]) -> np.ndarray:
    return np.kron([[GREY[c] for c in row] for row in rows], np.ones((BLOCK, BLOCK))).astype(np.uint8)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", sorted(SHOWN))
def test_stored_pixels_are_shown_upright(orientation: int, kind: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    out = io.BytesIO()
    stored = Image.fromarray(np.stack([_grey(SHOWN[1])] * 3, axis=-1))
    stored.save(out, kind, exif=exif, quality=95)
    photo = read_photo(out.getvalue())
    assert photo
    wanted = _grey(SHOWN[orientation])
    assert photo.image.shape == (*wanted.shape, 3)
    assert (photo.facts.height, photo.facts.width) == wanted.shape
    assert photo.facts.orientation == orientation
    assert np.abs(photo.image[..., 1].astype(int) - wanted).max() < 30  # lossy coding at the block edges
    assert np.abs(photo.image[..., 1].astype(int) - wanted).mean() < 2
