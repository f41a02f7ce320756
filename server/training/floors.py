"""Floors, benches and marks far beyond the development photos, for the training scenes."""
import math
import cv2, numpy as np
from drawn import KINDS, PRESSED
import tray_scene as ts


def _rgb(rng, low=0.02, high=0.8):
    """A random plain colour, often dull."""
    grey = rng.uniform(low, high)
    return np.clip(grey * (1 + rng.normal(0, rng.choice([0.02, 0.15, 0.5]), 3)), 0.01, 0.9)


def paint(rng, n):
    cloud, fine, scr = ts.fbm(rng, n, n, 4), ts.fbm(rng, n, n, 160, 2), ts.scratches(rng, n, n, int(rng.integers(0, 400)), n * 0.1)
    base = _rgb(rng)
    rgb = base * (0.85 + 0.3 * cloud[..., None]) * (1 + rng.uniform(0, 0.3) * (fine[..., None] - 0.5))
    rgb = rgb + (scr * rng.uniform(-0.1, 0.2))[..., None]
    bump = rng.normal(0, 1, (n, n)).astype(np.float32) * rng.choice([0, 0, 0.1, 0.3])
    return rgb, rng.uniform(0.15, 0.8) + 0.15 * (cloud - 0.5), 0.0, bump, 0.5


def bare_metal(rng, n):
    cloud, streak = ts.fbm(rng, n, n, int(rng.integers(3, 9))), ts.fbm(rng, n, n, 260, 2, stretch=rng.choice([1.0, 8.0, 40.0]))
    scr = ts.scratches(rng, n, n, int(rng.integers(50, 900)), n * 0.05)
    v = rng.uniform(0.3, 0.8) + 0.2 * (cloud - 0.5) + 0.15 * (streak - 0.5) + rng.uniform(-0.15, 0.15) * scr
    tint = np.array([1.0, rng.uniform(0.93, 1.0), rng.uniform(0.8, 1.0)])
    return v[..., None] * tint, rng.uniform(0.18, 0.55) + 0.2 * (cloud - 0.5) + 0.1 * (streak - 0.5), 0.95, None, 0.5


def rusty(rng, n):
    cloud, fine = ts.fbm(rng, n, n, 6), ts.fbm(rng, n, n, 90, 4)
    m = np.clip((cloud + 0.5 * fine - rng.uniform(0.5, 0.9)) * 5, 0, 1)[..., None]
    steel = (0.45 + 0.1 * (fine - 0.5))[..., None] * np.ones(3)
    rust = (0.5 + 0.9 * fine)[..., None] * np.array([0.26, 0.10, 0.04])
    return steel * (1 - m) + rust * m, 0.35 + 0.45 * m[..., 0], 0.6, fine * 0.3, 0.4


def speckle(rng, n):
    size = int(rng.integers(60, 400))
    a, b = ts.fbm(rng, n, n, size, 2), ts.fbm(rng, n, n, size // 2, 2)
    base, other = _rgb(rng), _rgb(rng)
    m = np.clip((a - 0.5) * rng.uniform(2, 9) + 0.5, 0, 1)[..., None]
    rgb = base * m + other * (1 - m) + 0.2 * (b[..., None] - 0.5) * rng.random()
    return rgb, np.full((n, n), rng.uniform(0.2, 0.9)), 0.0, None, 0.5


def ribbed(rng, n):
    x = np.arange(n) / n * 2 * math.pi * rng.uniform(15, 70)
    wave = np.sign(np.sin(x)) * np.abs(np.sin(x)) ** rng.uniform(0.3, 1.0)
    g = np.broadcast_to(wave, (n, n)) if rng.random() < 0.5 else wave[:, None] * 0.5 + wave[None] * 0.5
    rgb = _rgb(rng, 0.015, 0.4) * (0.9 + 0.25 * g[..., None] * rng.random()) * (0.8 + 0.4 * ts.fbm(rng, n, n, 5)[..., None])
    return rgb, np.full((n, n), rng.uniform(0.35, 0.9)), 0.0, np.ascontiguousarray(g, np.float32) * rng.uniform(0.2, 1.0), 0.4


def cloth(rng, n):
    x = np.arange(n) / n * 2 * math.pi * rng.uniform(80, 160)
    weave = 0.5 + 0.25 * np.sin(x)[None] * np.sin(x)[:, None]
    folds = ts.fbm(rng, n, n, 5, 3)
    rgb = _rgb(rng, 0.05, 0.7) * (0.6 + 0.5 * weave[..., None] + 0.5 * (folds[..., None] - 0.5))
    return rgb, np.full((n, n), 0.95), 0.0, (folds * 6 + weave * 0.3).astype(np.float32), 0.1


def printed(rng, n):
    img = np.full((n, n, 3), int(200 * rng.uniform(0.7, 1.0)), np.uint8)
    ink = _rgb(rng, 0.02, 0.4) * 255
    if rng.random() < 0.5:
        step = int(n * rng.uniform(0.02, 0.08))
        for k in range(0, n, step):
            cv2.line(img, (k, 0), (k, n), ink.tolist(), 1, cv2.LINE_AA)
            cv2.line(img, (0, k), (n, k), ink.tolist(), 1, cv2.LINE_AA)
    for _ in range(int(rng.integers(0, 60))):
        at = (int(rng.integers(n)), int(rng.integers(n)))
        word = "".join(rng.choice(list("abcdefghimnoprstuvwxyzABCDEFH0123456789 ")) for _ in range(rng.integers(3, 22)))
        cv2.putText(img, word, at, int(rng.integers(0, 4)), rng.uniform(0.3, 1.2), ink.tolist(), 1, cv2.LINE_AA)
    img = img / 255 * (0.92 + 0.16 * ts.fbm(rng, n, n, 5)[..., None])
    return img, np.full((n, n), 0.85), 0.0, None, 0.2


def planks(rng, n):
    ring = ts.fbm(rng, n, n, 40, 3, stretch=20)
    v = 0.7 + 0.7 * (ring - 0.5)
    seams = np.ones((n, n), np.float32)
    for k in rng.integers(0, n, rng.integers(0, 8)):
        seams[max(0, k - 1):k + 2] = 0.3
    return (v * seams)[..., None] * _rgb(rng, 0.1, 0.5) * np.array([1.3, 1.0, 0.65]), 0.3 + 0.4 * ring, 0.0, None, 0.5


def cork(rng, n):
    a, b = ts.fbm(rng, n, n, 120, 3), ts.fbm(rng, n, n, 30, 3)
    v = 0.55 + 0.9 * (a - 0.5) + 0.6 * (b - 0.5)
    return v[..., None] * np.array([0.62, 0.36, 0.17]) * rng.uniform(0.5, 1.2), np.full((n, n), 0.85), 0.0, a * 0.4, 0.2


ts.extra_surfaces.update(cork=cork, paint=paint, bare_metal=bare_metal, rusty=rusty, speckle=speckle, ribbed=ribbed, cloth=cloth,
                         printed=printed, planks=planks)
PLAIN = ["steel", "black_plastic", "blue_plastic", "paper", "cardboard"]
WIDE = ["paint", "paint", "bare_metal", "rusty", "speckle", "ribbed", "cloth", "printed", "planks", "planks", "wood", "cork"]
BUSY = ["printed", "printed", "ribbed", "ribbed", "bare_metal", "bare_metal", "rusty", "speckle"]
"""Floors on which a lone part is overlooked most easily."""
BENCHES = ["wood", "bench_grey", "bench_green", "steel", "paint", "speckle", "planks", "bare_metal", "cloth", "rusty"]

def marks(rng, rgb, rough):
    """Things that are drawn, worn, moulded or spilt on a floor and are no parts: (colour, roughness, relief or None).

    What is flat lies in the colour and, where it is wet or glossy, in the roughness; what is pressed into the floor
    or stands out of it (moulded circles, dents, punch marks) lies in the relief.
    """
    rgb = np.array(rgb, np.float32)
    rough = np.broadcast_to(np.float32(rough), rgb.shape[:2]).copy()
    n, relief = rgb.shape[0], None
    pool = [KINDS[k] for k in rng.permutation(len(KINDS))[:int(rng.integers(1, 7))]]
    for _ in range(int(rng.integers(1, 20))):
        draw = pool[rng.integers(len(pool))]
        at, size = rng.integers(0, n, 2), int(n * rng.uniform(0.006, 0.04))
        reach = min(n, 12 * size + 40)
        x, y = np.clip(at - reach // 2, 0, n - reach)
        here = np.s_[y:y + reach, x:x + reach]
        layer = np.zeros((reach, reach), np.float32)
        draw(rng, layer, at - [x, y], size)
        soft = cv2.GaussianBlur(layer, (0, 0), float(rng.choice([0.6, 1.0, 1.6, 4.0], p=[0.4, 0.3, 0.15, 0.15])))
        if draw in PRESSED and rng.random() < 0.6:
            relief = np.zeros((n, n), np.float32) if relief is None else relief
            relief[here] += soft * rng.choice([-1, 1]) * rng.uniform(0.6, 3.0)
            soft = soft * rng.uniform(0, 0.25)
        elif rng.random() < 0.3:
            rough[here] = rough[here] * (1 - soft) + soft * rng.uniform(0.1, 0.9)
        rgb[here] = _inked(rng, rgb[here], soft[..., None])
    return rgb, rough, relief


def _inked(rng, rgb, layer):
    """The layer as ink, as a stain through which the floor shows, or as a worn and brighter place."""
    r = rng.random()
    if r < 0.55:
        return rgb * (1 - layer * rng.uniform(0.15, 0.9) * np.array(rng.choice([[1, 1, 1], [0.5, 0.75, 1.0], [1.0, 0.9, 0.6]])))
    if r < 0.7:
        return rgb * (1 + layer * rng.uniform(0.15, 0.8))
    return rgb * (1 - layer * rng.uniform(0.5, 1.0)) + layer * rng.uniform(0.5, 1.0) * _rgb(rng)
