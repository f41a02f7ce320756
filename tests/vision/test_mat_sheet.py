"""A count mat's whole sheet is counted on, and it can be had from above at its true size."""

import io
import tomllib
from pathlib import Path

import cv2
import numpy as np
import pytest
from PIL import Image

from lastbolt.vision.look import look_at
from lastbolt.vision.mat import AROUND_MM, sheet_corners
from lastbolt.vision.mat_plane import plane_from_mat
from lastbolt.vision.outcome import Photo, Unusable
from lastbolt.vision.pixels import read_photo
from lastbolt.vision.top_view import MM_PER_PX, flattened, mat_from_above

ROOT = Path(__file__).parents[2]
PHOTOS = Path(__file__).parent / "photos"
MATS = sorted((ROOT / "label_templates").glob("mat-*.toml"))


def _photo(name: str) -> Photo:
    photo = read_photo((PHOTOS / name).read_bytes())
    assert isinstance(photo, Photo)
    return photo


@pytest.mark.parametrize("path", MATS, ids=lambda p: p.stem)
def test_the_paper_around_each_printed_field_is_known(path: Path) -> None:
    layout = tomllib.loads(path.read_text())
    field, paper = layout["field"], layout["paper"]
    left, top = field["left_mm"], field["top_mm"]
    right = paper["width_mm"] - left - field["width_mm"]
    below = paper["height_mm"] - top - field["height_mm"]
    known = AROUND_MM[field["width_mm"], field["height_mm"]]
    assert known == pytest.approx((left, top, right, below), abs=0.1)
    assert len(MATS) == len(AROUND_MM)


def test_the_sheets_corners_follow_the_fields_in_a_slanted_view() -> None:
    field = np.array([[100.0, 80.0], [480.0, 80.0], [480.0, 590.0], [100.0, 590.0]])  # A4, 2 pixels a mm
    sheet = sheet_corners(field, (190.6, 254.7))
    assert sheet == pytest.approx(np.array([[82, 62], [498, 62], [498, 652], [82, 652]]), abs=1.0)
    unknown = sheet_corners(field, (150.0, 200.0))
    assert (unknown[0] < field[0]).all() and unknown[2][1] - field[2][1] < 30


def test_what_lies_below_the_marked_field_is_counted_too() -> None:
    photo = _photo("mat_a5_007.jpg")
    found = plane_from_mat(photo.image, photo.facts)
    assert isinstance(found, tuple)
    seen = look_at(photo, lambda text: None)
    middles = [part.outline.mean(0) for part in seen.parts]
    below = [m for m in middles if cv2.pointPolygonTest(found[2].astype(np.float32), m.tolist(), False) < 0]
    assert (seen.count.count, len(below)) == (11, 1)


def test_a_mat_from_above_prints_at_its_true_size() -> None:
    data = (PHOTOS / "mat_001.jpg").read_bytes()
    flat = flattened(data)
    assert isinstance(flat, bytes)
    with Image.open(io.BytesIO(flat)) as picture:
        inches = [edge / dots for edge, dots in zip(picture.size, picture.info["dpi"], strict=True)]
        edge_mm = sorted(25.4 * inch for inch in inches)
        corner = np.asarray(picture.convert("L"))[: round(15 / MM_PER_PX), : round(15 / MM_PER_PX)]
    assert edge_mm == pytest.approx([186.0, 273.0], rel=0.006)  # an A4 sheet less 12 mm all around
    rim = np.concatenate([corner[:8].ravel(), corner[:, :8].ravel()])
    assert np.median(rim) < 90  # the marker's black border starts at the very corner


def test_a_photo_without_a_mat_is_refused_in_words() -> None:
    tray = _photo("separate_steel_008.jpg")
    refused = mat_from_above(tray)
    assert isinstance(refused, Unusable) and "count mat" in refused.reason
    assert isinstance(flattened(b"no photo"), Unusable)
