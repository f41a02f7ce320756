"""The count mat in rendered photos: its plane and the field's true size, found without being told."""

from pathlib import Path

import cv2
import numpy as np
import pytest

from lastbolt.vision.count import count_learned
from lastbolt.vision.look import look_at
from lastbolt.vision.mat_plane import plane_from_mat
from lastbolt.vision.outcome import Photo, Unusable
from lastbolt.vision.pixels import read_photo

FOLDER = Path(__file__).parent / "photos"
FIELD_MM = (273.0, 186.0)  # an A4 sheet less 12 mm on every side, as it was rendered


def _photo(name: str) -> Photo:
    photo = read_photo((FOLDER / name).read_bytes())
    assert isinstance(photo, Photo)
    return photo


@pytest.mark.parametrize("name", ["mat_001.jpg", "mat_002.jpg"])
def test_the_fields_corners_are_as_far_apart_as_on_the_sheet(name: str) -> None:
    photo = _photo(name)
    found = plane_from_mat(photo.image, photo.facts)
    assert isinstance(found, tuple)
    plane, markers, field = found
    places = plane.floor_points(np.concatenate(markers))
    assert np.ptp(places, axis=0) == pytest.approx(FIELD_MM, rel=0.006)
    assert plane.scale_sigma < 0.01
    gaps = np.linalg.norm(np.concatenate(markers)[:, None] - field[None], axis=2)
    assert np.sort(gaps.min(0))[:3].max() < 1.5  # a marker's outer corner is the field's, where it was seen


def test_only_what_lies_in_the_field_is_counted() -> None:
    photo = _photo("separate_steel_008.jpg")
    everything = count_learned(photo.image, 0.3, [])
    middles = np.array([part.outline.mean(0) for part in everything.parts])
    split = float(np.median(middles[:, 0])) + 30.0
    field = np.array([[0.0, 0.0], [split, 0.0], [split, 1200.0], [0.0, 1200.0]])
    inside = count_learned(photo.image, 0.3, [], field)
    assert 0 < inside.count.count < everything.count.count
    assert inside.count.count == pytest.approx((middles[:, 0] < split).sum(), abs=1)
    corner = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    assert count_learned(photo.image, 0.3, [], corner).count.high == 0


def test_a_bent_sheet_gives_no_sizes_and_says_so() -> None:
    photo = _photo("mat_001.jpg")
    rows, cols = np.mgrid[0 : photo.image.shape[0], 0 : photo.image.shape[1]].astype(np.float32)
    bow = 45.0 * np.sin(np.pi * rows / len(rows)) * (cols > cols.mean()) + 25.0 * (rows > rows.mean())
    bent = cv2.remap(photo.image, cols + bow.astype(np.float32), rows, cv2.INTER_LINEAR)
    found = plane_from_mat(bent, photo.facts)
    assert isinstance(found, Unusable)
    seen = look_at(Photo(bent, photo.facts), lambda text: None)
    assert found.reason in seen.unsure
    assert all(part.length_mm is None for part in seen.parts if part.label is None)


def test_a_tray_has_no_mat() -> None:
    photo = _photo("separate_steel_008.jpg")
    assert plane_from_mat(photo.image, photo.facts) is None
