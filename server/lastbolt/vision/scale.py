"""Pictures made smaller: by exact halves first, which cost a tenth of what any other size does."""

import cv2
import numpy as np

from lastbolt.vision.outcome import Image

_HALVED_FROM = 2.4
"""Times too large from which a picture is halved, so that a step of at least 1.2 is left to the rest."""


def made_smaller(image: Image, size: tuple[int, int]) -> Image:
    """The whole picture at `size` (width, height), each pixel the mean of what it covers."""
    while image.shape[1] >= _HALVED_FROM * size[0] and image.shape[0] % 2 == image.shape[1] % 2 == 0:
        half = (image.shape[1] // 2, image.shape[0] // 2)
        image = np.asarray(cv2.resize(image, half, interpolation=cv2.INTER_AREA))
    return np.asarray(cv2.resize(image, size, interpolation=cv2.INTER_AREA))


def within(image: Image, edge_px: int) -> tuple[Image, float]:
    """The picture with its longer edge at most `edge_px`, and its size over the original's."""
    scale = min(1.0, edge_px / max(image.shape[:2]))
    size = (round(image.shape[1] * scale), round(image.shape[0] * scale))
    return (made_smaller(image, size) if scale < 1 else image), scale
