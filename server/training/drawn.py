"""Marks that are no parts, drawn as layers of strength 0..1: rings, words, stains, strokes, moulded shapes.

`floors.marks` lays them into a floor's colour and relief before it is rendered; a whole bank of layers at the network's
scale, which `train.py` lays over the floor of ready pictures, comes from

    python drawn.py BANK.npy --n 4000 --seed 71 --workers 8
"""
import math
from multiprocessing import get_context
import cv2, numpy as np
from spread import parser

BANK_EDGE_PX = 512


def _ring(rng, layer, at, size):
    """A ring, thin ones more often than wide ones, whole or an arc, round or a little squashed."""
    wide = int(max(1, round(size * rng.choice([0.08, 0.15, 0.3, 0.6]) * rng.uniform(0.6, 1.4))))
    squash = 1.0 if rng.random() < 0.6 else rng.uniform(0.7, 1.0)
    first = 0 if rng.random() < 0.65 else rng.uniform(0, 360)
    last = 360 if first == 0 else first + rng.uniform(60, 330)
    turn = float(rng.uniform(0, 180))
    cv2.ellipse(layer, at.tolist(), (size, max(2, int(size * squash))), turn, first, last, 1.0, wide, cv2.LINE_AA)
    if rng.random() < 0.2:
        inner = max(2, int(size * rng.uniform(0.3, 0.8)))
        cv2.ellipse(layer, at.tolist(), (inner, max(2, int(inner * squash))), turn, 0, 360, float(rng.uniform(0.4, 1.0)), max(1, wide // 2), cv2.LINE_AA)


def _wet_ring(rng, layer, at, size):
    """The edge that a cup, a can or a dried drop leaves: uneven in width and strength, its inside faintly tinted."""
    size = int(size * rng.uniform(0.7, 3.5))
    a = np.linspace(0, 2 * math.pi, 120)
    wave = sum(rng.normal(0, 0.05 / k) * np.cos(k * a + rng.random() * 7) for k in range(1, 6)) * rng.choice([0.2, 1.0])
    pts = (at + size * (1 + wave)[:, None] * np.c_[np.cos(a), np.sin(a)]).astype(np.int32)
    if rng.random() < 0.6:
        cv2.fillPoly(layer, [pts], float(rng.uniform(0.1, 0.5)), cv2.LINE_AA)
    strength = 0.75 + 0.25 * np.cos(a + rng.random() * 7)
    for k in range(len(pts) - 1):
        cv2.line(layer, pts[k].tolist(), pts[k + 1].tolist(), float(strength[k]), int(rng.integers(1, max(2, size // 8) + 1)), cv2.LINE_AA)


def _dot(rng, layer, at, size):
    cv2.circle(layer, at.tolist(), max(2, int(size * rng.uniform(0.2, 0.9))), 1.0, -1, cv2.LINE_AA)


def _drops(rng, layer, at, size):
    """A spatter of round drops."""
    for _ in range(int(rng.integers(2, 14))):
        spot = (at + rng.normal(0, 2.5 * size, 2)).astype(int)
        cv2.circle(layer, spot.tolist(), max(1, int(size * rng.exponential(0.3))), 1.0, -1, cv2.LINE_AA)


def _stroke(rng, layer, at, size):
    a = rng.random() * 6.3
    to = (at + size * rng.uniform(1, 5) * np.array([math.cos(a), math.sin(a)])).astype(int)
    cv2.line(layer, at.tolist(), to.tolist(), 1.0, int(rng.integers(1, 9)), cv2.LINE_AA)


def _spot(rng, layer, at, size):
    cv2.ellipse(layer, at.tolist(), (size, max(2, int(size * rng.uniform(0.2, 0.9)))), float(rng.uniform(0, 180)), 0, 360, 1.0, -1, cv2.LINE_AA)


def _patch(rng, layer, at, size):
    pts = at + rng.normal(0, size, (int(rng.integers(3, 8)), 2))
    cv2.fillPoly(layer, [pts.astype(np.int32)], 1.0, cv2.LINE_AA)


def _scribble(rng, layer, at, size):
    pts = at + np.cumsum(rng.normal(0, size * rng.uniform(0.15, 0.5), (int(rng.integers(6, 24)), 2)), 0)
    cv2.polylines(layer, [pts.astype(np.int32)], bool(rng.random() < 0.2), 1.0, int(rng.integers(1, 4)), cv2.LINE_AA)


def _word(rng, layer, at, size):
    """Letters and figures, many of them round."""
    text = "".join(rng.choice(list("OQC0698DGBoeabcpqd@8 1235HMTX"), int(rng.integers(1, 9))))
    page = np.zeros(layer.shape, np.uint8)
    cv2.putText(page, text, at.tolist(), int(rng.choice([0, 1, 2, 3, 4, 6])), size / rng.uniform(8, 26), 255, int(rng.integers(1, 5)), cv2.LINE_AA)
    np.maximum(layer, page / np.float32(255), out=layer)


def _hatch(rng, layer, at, size):
    """Parallel strokes, as of a scale, a bar code, a file or a thread that was laid in paint."""
    a, gap, half = rng.random() * 6.3, rng.uniform(2.5, 9), size * rng.uniform(0.3, 1.0)
    along, side = np.array([math.cos(a), math.sin(a)]), np.array([-math.sin(a), math.cos(a)])
    for k in range(int(rng.integers(4, 22))):
        p = at + k * gap * along
        cv2.line(layer, (p - half * side).astype(int).tolist(), (p + half * side).astype(int).tolist(), 1.0, int(rng.integers(1, 4)), cv2.LINE_AA)


def _swirl(rng, layer, at, size):
    """A bundle of fine round scratches, as a turned part leaves."""
    turn, reach = rng.uniform(0, 360), rng.uniform(30, 360)
    for _ in range(int(rng.integers(3, 16))):
        r = max(2, int(size * rng.uniform(0.4, 1.6)))
        first = turn + rng.normal(0, 30)
        cv2.ellipse(layer, (at + rng.normal(0, 1.5, 2)).astype(int).tolist(), (r, r), 0, first, first + reach * rng.uniform(0.3, 1), float(rng.uniform(0.3, 1)), 1, cv2.LINE_AA)


def _hole(rng, layer, at, size):
    """A drilled or punched hole, with or without a burr around."""
    r = max(2, int(size * rng.uniform(0.25, 0.7)))
    if rng.random() < 0.5:
        cv2.circle(layer, at.tolist(), r + int(rng.integers(1, 4)), 0.4, -1, cv2.LINE_AA)
    cv2.circle(layer, at.tolist(), r, 1.0, -1, cv2.LINE_AA)


def _corners(rng, layer, at, size):
    """A drawn polygon: a hexagon, a square, a triangle; its outline, or filled with or without a hole."""
    k, a = int(rng.choice([3, 4, 6, 6])), rng.random() * 6.3
    th = a + np.arange(k) * 2 * math.pi / k
    pts = (at + size * np.c_[np.cos(th), np.sin(th)]).astype(np.int32)
    if rng.random() < 0.7:
        cv2.polylines(layer, [pts], True, 1.0, int(rng.integers(1, 4)), cv2.LINE_AA)
    else:
        cv2.fillPoly(layer, [pts], 1.0, cv2.LINE_AA)
    if rng.random() < 0.4:
        cv2.circle(layer, at.tolist(), max(2, int(size * rng.uniform(0.35, 0.6))), float(rng.choice([0.0, 1.0])), int(rng.choice([-1, 2])), cv2.LINE_AA)


def _flat_washer(rng, layer, at, size):
    """A filled ring in a washer's proportions, sometimes with a rim of its own."""
    squash, turn = rng.uniform(0.75, 1.0), float(rng.uniform(0, 180))
    inner = max(1, int(size * rng.uniform(0.4, 0.6)))
    cv2.ellipse(layer, at.tolist(), (size, max(2, int(size * squash))), turn, 0, 360, float(rng.uniform(0.5, 1.0)), -1, cv2.LINE_AA)
    cv2.ellipse(layer, at.tolist(), (inner, max(1, int(inner * squash))), turn, 0, 360, float(rng.choice([0.0, 0.0, 0.3])), -1, cv2.LINE_AA)
    if rng.random() < 0.3:
        cv2.ellipse(layer, at.tolist(), (size, max(2, int(size * squash))), turn, 0, 360, 1.0, int(rng.integers(1, 3)), cv2.LINE_AA)


def _flat_nut(rng, layer, at, size):
    """A hexagon with a hole or a ring in it, filled or as outlines."""
    th = rng.random() * 6.3 + np.arange(6) * math.pi / 3
    pts = (at + size * np.c_[np.cos(th), rng.uniform(0.8, 1.0) * np.sin(th)]).astype(np.int32)
    r = max(2, int(size * rng.uniform(0.4, 0.65)))
    if rng.random() < 0.5:
        cv2.fillPoly(layer, [pts], float(rng.uniform(0.5, 1.0)), cv2.LINE_AA)
        cv2.circle(layer, at.tolist(), r, float(rng.choice([0.0, 1.0])), int(rng.choice([-1, 1, 3])), cv2.LINE_AA)
    else:
        cv2.polylines(layer, [pts], True, 1.0, int(rng.integers(1, 4)), cv2.LINE_AA)
        for k in range(int(rng.integers(1, 3))):
            cv2.circle(layer, at.tolist(), max(2, r - 3 * k), 1.0, int(rng.integers(1, 3)), cv2.LINE_AA)


def _flat_bolt(rng, layer, at, size):
    """A bolt as a drawing: head, shank and perhaps thread lines, filled or as outlines."""
    a, long, half = rng.random() * 6.3, size * rng.uniform(2, 6), max(2.0, size * rng.uniform(0.25, 0.5))
    along, side = np.array([math.cos(a), math.sin(a)]), np.array([-math.sin(a), math.cos(a)])
    box = lambda s, e, w: np.array([at + s * along - w * side, at + e * along - w * side, at + e * along + w * side, at + s * along + w * side]).astype(np.int32)
    head, shank = box(-size * rng.uniform(0.5, 1.0), 0, half * rng.uniform(1.5, 2.0)), box(0, long, half)
    if rng.random() < 0.5:
        cv2.fillPoly(layer, [head], 1.0, cv2.LINE_AA)
        cv2.fillPoly(layer, [shank], float(rng.uniform(0.5, 1.0)), cv2.LINE_AA)
    else:
        cv2.polylines(layer, [head, shank], True, 1.0, int(rng.integers(1, 4)), cv2.LINE_AA)
    if rng.random() < 0.5:
        for k in np.arange(long * rng.uniform(0, 0.5), long, max(3.0, size * 0.2)):
            cv2.line(layer, (at + k * along - half * side).astype(int).tolist(), (at + (k + 1) * along + half * side).astype(int).tolist(), float(rng.choice([0.2, 1.0])), 1, cv2.LINE_AA)


def _target(rng, layer, at, size):
    """Two to four rings in each other, whole or in arcs."""
    turn = rng.uniform(0, 360)
    for k in range(int(rng.integers(2, 5))):
        r = max(2, int(size * rng.uniform(0.2, 1.2)))
        reach = 360 if rng.random() < 0.7 else rng.uniform(120, 330)
        cv2.ellipse(layer, at.tolist(), (r, max(2, int(r * rng.uniform(0.9, 1.0)))), 0, turn, turn + reach, float(rng.uniform(0.4, 1.0)), int(rng.integers(1, 5)), cv2.LINE_AA)


KINDS = [_ring, _ring, _wet_ring, _dot, _drops, _stroke, _spot, _patch, _scribble, _word, _hatch, _swirl, _hole, _corners,
         _flat_washer, _flat_nut, _flat_bolt, _target]
PRESSED = (_ring, _dot, _hole, _corners, _stroke, _word, _flat_washer, _flat_nut, _target)


def layer(rng, n=BANK_EDGE_PX):
    """One layer of marks, n x n uint8; sizes as they show at the network's scale."""
    out = np.zeros((n, n), np.float32)
    pool = [KINDS[k] for k in rng.permutation(len(KINDS))[:int(rng.integers(1, 6))]]
    for _ in range(int(rng.integers(2, 15))):
        one = np.zeros((n, n), np.float32)
        pool[rng.integers(len(pool))](rng, one, rng.integers(0, n, 2), int(rng.uniform(5, 42)))
        soft = float(rng.choice([0.5, 0.8, 1.3, 3.0], p=[0.4, 0.3, 0.18, 0.12]))
        np.maximum(out, cv2.GaussianBlur(one, (0, 0), soft) * np.float32(rng.uniform(0.3, 1.0)), out=out)
    return (out.clip(0, 1) * 255).astype(np.uint8)


def _layers(job):
    seed, numbers = job
    cv2.setNumThreads(1)
    return [layer(np.random.default_rng([seed, k])) for k in numbers]


def main():
    ap = parser(__doc__, 71)
    ap.add_argument("--n", type=int, default=4000)
    args = ap.parse_args()
    jobs = [(args.seed, range(k, min(args.n, k + 50))) for k in range(0, args.n, 50)]
    with get_context("spawn").Pool(args.workers) as pool:
        made = [one for some in pool.imap(_layers, jobs) for one in some]
    np.save(args.out, np.stack(made))


if __name__ == "__main__":
    main()
