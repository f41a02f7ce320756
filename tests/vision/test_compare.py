"""A cleared tray against an earlier photo: the same rendered tray, warped and relit, with and without a washer."""

from pathlib import Path

import cv2
import numpy as np
import pytest

from lastbolt.vision.compare import Comparison, compare_empty
from lastbolt.vision.outcome import Photo
from lastbolt.vision.pixels import read_photo

PHOTO = Path(__file__).parent / "photos" / "separate_steel_006.jpg"


def _photo() -> Photo:
    photo = read_photo(PHOTO.read_bytes())
    assert isinstance(photo, Photo)
    return photo


def _again(photo: Photo, washer: bool) -> Photo:
    """The same tray from a slightly other place in other light, with or without a drawn washer."""
    image = photo.image.copy()
    if washer:
        cv2.circle(image, (640, 520), 20, (60, 60, 62), 9, cv2.LINE_AA)
    height, width = image.shape[:2]
    frame = np.float32([[0, 0], [width, 0], [width, height], [0, height]])
    moved = frame + np.float32([[14, 9], [-11, 16], [-18, -12], [10, -7]])
    image = cv2.warpPerspective(
        image, cv2.getPerspectiveTransform(frame, moved), (width, height), borderMode=cv2.BORDER_REPLICATE
    )
    light = 0.75 + 0.35 * np.linspace(0, 1, width)[None, :, None]
    return Photo((image * light).clip(0, 255).astype(np.uint8), photo.facts)


def test_the_same_empty_tray_shows_nothing_new() -> None:
    photo = _photo()
    compared = compare_empty(_again(photo, washer=False), photo)
    assert isinstance(compared, Comparison)
    assert compared.empty


def test_a_washer_left_behind_is_outlined() -> None:
    photo = _photo()
    compared = compare_empty(_again(photo, washer=True), photo)
    assert isinstance(compared, Comparison)
    assert len(compared.new) == 1
    assert compared.new[0].mean(0) == pytest.approx([640, 520], abs=25)


def test_photos_without_a_common_label_are_refused() -> None:
    photo = _photo()
    blank = Photo(np.full((900, 1200, 3), 120, np.uint8), photo.facts)
    refused = compare_empty(blank, photo)
    assert not refused
    assert "label" in refused.reason
