"""A cleared tray whose reading is held against an earlier photo of it."""

import io
from pathlib import Path

import cv2
import numpy as np
from PIL import Image

from lastbolt.vision.empty import is_empty
from lastbolt.vision.look import look, look_at
from lastbolt.vision.outcome import Count, Look, Photo
from lastbolt.vision.pixels import read_photo
from lastbolt.vision.since import held_against

PHOTO = (Path(__file__).parent / "photos" / "separate_steel_006.jpg").read_bytes()


def _bare(photo: Photo) -> Look:
    """What a reader says that overlooks everything."""
    return Look((4, 3), photo.facts, (), (), (), Count(0, 0, 0), (), "test")


def _photo() -> Photo:
    photo = read_photo(PHOTO)
    assert isinstance(photo, Photo)
    return photo


def _with_washer(photo: Photo) -> Photo:
    image = photo.image.copy()
    cv2.circle(image, (640, 520), 20, (60, 60, 62), 9, cv2.LINE_AA)
    return Photo(image, photo.facts)


def test_the_same_picture_twice_changes_nothing() -> None:
    photo = _photo()
    seen = _bare(photo)
    assert held_against(seen, photo, photo) is seen
    assert is_empty(seen) == "yes"


def test_an_overlooked_washer_makes_an_empty_reading_unsure() -> None:
    photo = _photo()
    held = held_against(_bare(photo), _with_washer(photo), photo)
    assert is_empty(held) == "unsure"
    assert held.count == Count(0, 0, 0)
    assert "earlier photo" in held.unsure[-1]


def test_an_earlier_photo_without_the_label_leaves_the_reading_as_it_was() -> None:
    photo = _photo()
    blank = Photo(np.full_like(photo.image, 120), photo.facts)
    seen = _bare(photo)
    assert held_against(seen, photo, blank) is seen


def test_what_was_counted_stands_and_an_unreadable_earlier_photo_is_left_out() -> None:
    out = io.BytesIO()
    Image.fromarray(_photo().image).save(out, "PNG")
    seen = look(out.getvalue(), lambda text: None, earlier=b"no photo")
    assert isinstance(seen, Look)
    assert seen.count == look_at(_photo(), lambda text: None).count
