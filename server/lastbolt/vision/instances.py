"""From the network's maps to single parts: each cell votes for a centre, and the votes are gathered."""

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.ends import shank_ends
from lastbolt.vision.network import CELL_PX, KINDS, Map, Maps
from lastbolt.vision.outcome import Points

_PEAK = 0.22
_NEAREST_CELLS = 3
_REACH_PX = 14.0
_LEAST_CELLS = 14


@dataclass(frozen=True, slots=True, eq=False)
class Instance:
    """One part as the network sees it, in pixels of the network's input."""

    centre: Points
    cells: npt.NDArray[np.intp]
    """n x 2 (row, col) of its cells."""
    heat: float
    solid: float
    """Mean of the mask over its cells, 0..1."""
    agreement: float
    """Share of its cells whose vote falls near the centre."""
    kinds: npt.NDArray[np.float32]
    """One share a kind, in the order of `network.KINDS`; they sum to 1."""
    standing: float
    under: Points
    """Where the axis meets the plane under the head (bolts and screws), (x, y)."""
    tip: Points
    head_px: float
    shank_px: float
    spread_px: float
    """How far apart its cells' votes for the two ends of the shank lie."""


def find_instances(maps: Maps) -> list[Instance]:
    """Parts in order of their centre from the top down."""
    cells = np.argwhere(maps.mask > 0.5)
    if not len(cells):
        return []
    votes = _cell_centres(cells) + maps.centre[cells[:, 0], cells[:, 1]]
    strength = _gathered(votes, maps)
    peaks = _peaks(strength)
    if not len(peaks):
        return []
    owner, apart = _nearest(votes, peaks)
    found = []
    for k, peak in enumerate(peaks):
        mine = (owner == k) & (apart < np.maximum(_REACH_PX, 0.45 * _reach(votes, cells)))
        if mine.sum() >= _LEAST_CELLS:
            found.append(_instance(maps, cells[mine], (peak, apart[mine], strength)))
    return found


def _cell_centres(cells: npt.NDArray[np.intp]) -> npt.NDArray[np.float32]:
    return np.asarray(cells[:, ::-1] * CELL_PX + (CELL_PX - 1) / 2, dtype=np.float32)


def _reach(votes: npt.NDArray[np.float32], cells: npt.NDArray[np.intp]) -> npt.NDArray[np.float32]:
    """How far each cell lies from the centre it votes for."""
    return np.asarray(np.linalg.norm(votes - _cell_centres(cells), axis=1), dtype=np.float32)


def _gathered(votes: npt.NDArray[np.float32], maps: Maps) -> Map:
    """Heat of centres, raised where many votes fall."""
    height, width = maps.heat.shape
    at = np.round((votes - 0.5) / CELL_PX).astype(int)
    inside = (at >= 0).all(1) & (at[:, 0] < width) & (at[:, 1] < height)
    counts = np.bincount(at[inside, 1] * width + at[inside, 0], minlength=height * width)
    density = cv2.GaussianBlur(counts.reshape(height, width).astype(np.float32), (0, 0), 1.5)
    return np.asarray(0.65 * maps.heat + 0.35 * np.clip(density / 3.0, 0, 1), dtype=np.float32)


def _peaks(strength: Map) -> Points:
    smooth = cv2.GaussianBlur(strength, (0, 0), 0.8)
    window = np.ones((2 * _NEAREST_CELLS + 1,) * 2, np.uint8)
    top = (smooth >= cv2.dilate(smooth, window)) & (smooth > _PEAK)
    at = np.argwhere(top)[:, ::-1] * float(CELL_PX) + (CELL_PX - 1) / 2
    return np.asarray(at, dtype=np.float64)


def _nearest(
    votes: npt.NDArray[np.float32], peaks: Points
) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.float64]]:
    apart = np.linalg.norm(votes[:, None] - peaks[None], axis=2)
    owner = np.asarray(apart.argmin(1), dtype=np.intp)
    return owner, np.asarray(apart[np.arange(len(votes)), owner], dtype=np.float64)


def _spread(votes: npt.NDArray[np.float32]) -> float:
    return float(np.median(np.linalg.norm(votes - np.median(votes, axis=0), axis=1)))


def _instance(
    maps: Maps, cells: npt.NDArray[np.intp], about: tuple[Points, npt.NDArray[np.float64], Map]
) -> Instance:
    peak, apart, strength = about
    rows, cols = cells[:, 0], cells[:, 1]
    r, c = int(peak[1]) // CELL_PX, int(peak[0]) // CELL_PX
    here = _cell_centres(cells)
    unders, tips = here + maps.under[rows, cols], here + maps.tip[rows, cols]
    head_px, shank_px = (float(np.median(size[rows, cols])) for size in (maps.head, maps.shank))
    logs = np.log(maps.kind[rows, cols] + 1e-6).mean(0)
    kinds = np.exp(3.0 * (logs - logs.max()))
    flange = int(kinds[:3].argmax()) == KINDS.index("flange_bolt")
    under, tip = shank_ends(maps, cells, (head_px, shank_px), flange=flange)
    return Instance(
        centre=peak,
        cells=cells,
        heat=float(strength[r, c]),
        solid=float(maps.mask[rows, cols].mean()),
        agreement=float((apart < 6.0).mean()),
        kinds=kinds / kinds.sum(),
        standing=float(maps.stand[rows, cols].mean()),
        under=under,
        tip=tip,
        head_px=head_px,
        shank_px=shank_px,
        spread_px=_spread(unders) + _spread(tips),
    )
