"""A relief of shapes with their colours, lit from the upper left, seen by a phone held in a hand."""

from __future__ import annotations

from dataclasses import dataclass, field

import cv2
import numpy as np
from numpy.typing import NDArray

WIDTH, HEIGHT = 1200, 900
Plane = NDArray[np.float32]
Point = tuple[float, float]
Colour = tuple[float, float, float]
SUN = np.array((-0.50, -0.62, 0.60), np.float32)
"""Where the light comes from: left, above, towards the camera."""


def _plane() -> Plane:
    return np.zeros((HEIGHT, WIDTH), np.float32)


@dataclass
class Relief:
    """Height in pixels, colour 0 to 1 and gloss 0 to 1 of every point."""

    seed: int
    height: Plane = field(default_factory=_plane)
    gloss: Plane = field(default_factory=_plane)
    colour: Plane = field(default_factory=lambda: np.zeros((HEIGHT, WIDTH, 3), np.float32))

    def noise(self, size: float, salt: int = 0) -> Plane:
        """Give cloudy noise with mean 0; `size` is how many pixels a cloud measures."""
        rng = np.random.default_rng((self.seed, salt, int(size)))
        small = rng.standard_normal((int(HEIGHT / size) + 2, int(WIDTH / size) + 2)).astype(np.float32)
        return np.asarray(cv2.resize(small, (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC), np.float32)

    def ground(self, colour: Colour, rough: float = 1.0, gloss: float = 0.1) -> None:
        """Cover all with one casting, its skin uneven."""
        self.height[:] = rough * (0.5 * self.noise(5, 1) + 1.5 * self.noise(60, 2))
        self.colour[:] = np.array(colour, np.float32) * (1 + 0.05 * self.noise(90, 3))[..., None]
        self.gloss[:] = gloss

    def lay(self, mask: Plane, top: Plane | float, colour: Colour, *, gloss: float = 0.3) -> None:
        """Lay a body over what is there: `mask` 0 to 1 says where, `top` how high."""
        self.height[:] = self.height * (1 - mask) + np.asarray(top, np.float32) * mask
        speckle = (1 + 0.03 * self.noise(3, 4) + 0.04 * self.noise(40, 5))[..., None]
        self.colour[:] = (
            self.colour * (1 - mask[..., None]) + np.array(colour, np.float32) * speckle * mask[..., None]
        )
        self.gloss[:] = self.gloss * (1 - mask) + gloss * mask

    def lit(self) -> Plane:
        """Give the picture: diffuse and mirrored light, shadows thrown, corners darker."""
        smooth = cv2.GaussianBlur(self.height, (0, 0), 0.9)
        slope_x = cv2.Sobel(smooth, cv2.CV_32F, 1, 0, ksize=3) / 8
        slope_y = cv2.Sobel(smooth, cv2.CV_32F, 0, 1, ksize=3) / 8
        normal = np.dstack((-slope_x, -slope_y, np.ones_like(slope_x)))
        normal /= np.linalg.norm(normal, axis=2, keepdims=True)
        sun = SUN / np.linalg.norm(SUN)
        half = sun + np.array((0, 0, 1), np.float32)
        half /= np.linalg.norm(half)
        shade = self._shadow()
        diffuse = np.clip(normal @ sun, 0, 1) * shade
        mirrored = np.clip(normal @ half, 0, 1) ** 26 * shade * self.gloss
        around = np.exp(-np.clip(cv2.GaussianBlur(self.height, (0, 0), 22) - self.height, 0, 60) / 40)
        light = (0.34 * around + 0.95 * diffuse)[..., None]
        return np.asarray(self.colour * light + 0.55 * mirrored[..., None], np.float32)

    def _shadow(self) -> Plane:
        step = SUN[:2] / np.linalg.norm(SUN[:2])
        rise = float(SUN[2] / np.linalg.norm(SUN[:2]))
        hidden = np.zeros_like(self.height)
        for far in range(2, 150, 2):
            shift = np.array(((1, 0, -step[0] * far), (0, 1, -step[1] * far)), np.float32)
            other = cv2.warpAffine(self.height, shift, (WIDTH, HEIGHT), borderMode=cv2.BORDER_REPLICATE)
            hidden = np.maximum(hidden, np.clip((other - far * rise - self.height) / 4, 0, 1))
        return np.asarray(1 - 0.82 * cv2.GaussianBlur(hidden, (0, 0), 2.2), np.float32)


@dataclass(frozen=True)
class Camera:
    """Where a hand held the phone: moved corners in pixels, brightness, warmth."""

    seed: int
    sway: float = 26.0

    def matrix(self) -> NDArray[np.float64]:
        """Give how points of the relief come to lie in the picture."""
        rng = np.random.default_rng((self.seed, 7))
        corners = np.array(((0, 0), (WIDTH, 0), (WIDTH, HEIGHT), (0, HEIGHT)), np.float32)
        inward = np.array(((-1, -1), (1, -1), (1, 1), (-1, 1)), np.float32) * (self.sway + 8)
        moved = corners + inward + rng.uniform(-self.sway, self.sway, (4, 2)).astype(np.float32)
        return np.asarray(cv2.getPerspectiveTransform(corners, moved), np.float64)

    def take(self, lit: Plane) -> NDArray[np.uint8]:
        """Give the picture as RGB bytes, with vignette and grain."""
        rng = np.random.default_rng((self.seed, 8))
        seen = cv2.warpPerspective(lit, self.matrix(), (WIDTH, HEIGHT), borderMode=cv2.BORDER_REPLICATE)
        rows, columns = np.mgrid[0:HEIGHT, 0:WIDTH].astype(np.float32)
        away = np.hypot(columns / WIDTH - 0.5, rows / HEIGHT - 0.5)
        tint = np.array((1 + rng.uniform(-0.03, 0.05), 1.0, 1 - rng.uniform(-0.03, 0.05)), np.float32)
        seen = seen * (1.12 - 0.55 * away**2)[..., None] * tint * float(rng.uniform(0.95, 1.08))
        seen = np.clip(seen, 0, 1.4) / (1 + 0.12 * seen**2)
        grain = rng.normal(0, 0.004, (HEIGHT, WIDTH, 1)).astype(np.float32)
        bytes_ = np.clip((np.clip(seen, 0, 1) ** (1 / 1.6) + grain) * 255, 0, 255)
        return np.asarray(cv2.GaussianBlur(bytes_, (0, 0), 0.8), np.uint8)

    def where(self, place: Point) -> Point:
        """Give where a point of the relief lies in the picture, as shares of width and height."""
        x, y, w = self.matrix() @ np.array((*place, 1.0))
        return round(float(x / w) / WIDTH, 4), round(float(y / w) / HEIGHT, 4)
