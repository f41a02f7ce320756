"""Printed count mats for the training scenes; the sheets come as pictures of the whole page."""
from functools import lru_cache
from pathlib import Path
import cv2
import numpy as np
import tray_scene as ts

FOLDER = None
"""Where the pictures lie; without it no scene lies on a mat."""
SIZES_MM = {"mat-a4": (210.0, 297.0), "mat-a5": (148.0, 210.0), "mat-letter": (215.9, 279.4)}
_MARGIN_MM = 12.0
_EDGE_PX = 1500


@lru_cache(maxsize=1)
def sheets():
    """(picture, size in mm) of each sheet found."""
    found = [(name, Path(FOLDER) / f"{name}.png") for name in SIZES_MM] if FOLDER else []
    out = []
    for name, path in found:
        img = cv2.imread(str(path), cv2.IMREAD_GRAYSCALE) if path.exists() else None
        if img is not None:
            scale = min(1.0, _EDGE_PX / max(img.shape))
            out.append((cv2.resize(img, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA), SIZES_MM[name]))
    return out


def tray(rng):
    """A sheet that lies flat, as a tray without walls, upright or turned by a quarter; and its width and height."""
    img, (w, h) = sheets()[rng.integers(len(sheets()))]
    if rng.random() < 0.5:
        img, w, h = np.ascontiguousarray(np.rot90(img)), h, w
    flat = ts.Tray((0, 0), w, h, "mat", 0, 0, 0, 1)
    x, y = w / 2 - _MARGIN_MM, h / 2 - _MARGIN_MM
    flat.interior = (-x, -y, x, y)
    flat.label = dict(img=img, paper=(w, h), pos=(0, 0, 0), yaw=0.0, payload=None, corners=None, where="mat")
    return flat, (w, h)
