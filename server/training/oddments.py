"""Fasteners of other kinds, and things that are no fasteners, for the training scenes. Units: mm, the part's axis is z."""
import math
import numpy as np
import fastener_mesh as fm
import tray_scene as ts
from tray_scene import mi

ts.extra_finishes.update(
    rust=((0.20, 0.09, 0.045), 0.62), brass=((0.72, 0.52, 0.20), 0.26), copper=((0.62, 0.32, 0.2), 0.3), white=((0.75, 0.75, 0.72), 0.4),
    nylon_black=((0.025, 0.025, 0.025), 0.4), red=((0.45, 0.03, 0.03), 0.35), blue=((0.04, 0.10, 0.42), 0.35), dull=((0.30, 0.30, 0.31), 0.55),
    phosphate=((0.10, 0.10, 0.11), 0.6), olive=((0.36, 0.33, 0.16), 0.35), bronze=((0.45, 0.28, 0.13), 0.35),
    old_brass=((0.38, 0.29, 0.12), 0.45), old_copper=((0.33, 0.16, 0.09), 0.45))
METALS = ["zinc", "zinc", "zinc", "black", "stainless", "yellow", "rust", "brass", "brass", "dull", "phosphate", "olive", "copper", "copper", "bronze",
          "old_brass", "old_copper"]
_WARM = ["copper", "old_copper", "brass", "old_brass", "bronze", "rust", "yellow"]
_GREY = ["stainless", "dull", "zinc"]
ALIKE = dict(planks=_WARM, wood=_WARM, cork=_WARM, cardboard=_WARM, rusty=["rust", "old_copper", "bronze", "phosphate"], steel=_GREY,
             bare_metal=_GREY, black_plastic=["black", "phosphate"], ribbed=["black", "phosphate", "dull"])
"""Finishes that come near a floor's colour: the parts that are overlooked most easily."""
PLASTICS = ["white", "nylon_black", "red", "blue"]


def thread_rings(d, p, z_top, z_low, n=48):
    """Rings of an outside thread from z_top down to z_low."""
    th = np.arange(n) * 2 * math.pi / n
    depth, rings = 0.6134 * p, []
    for z in np.arange(z_top, z_low, -p / 6):
        u = fm.thread_height(-z / p + th / (2 * math.pi))
        edge = min(z_top - z, z - z_low)
        rings.append((np.minimum(d / 2 - depth * (1 - u), d / 2 - depth + edge + 0.1), z))
    return rings


def tube(path, radius, n=14):
    """A round wire along a 3D path."""
    path = np.asarray(path, float)
    t = np.gradient(path, axis=0)
    t /= np.linalg.norm(t, axis=1, keepdims=True) + 1e-9
    side = np.cross(t, [0, 0, 1.0])
    side /= np.linalg.norm(side, axis=1, keepdims=True) + 1e-9
    up = np.cross(side, t)
    a = np.arange(n) * 2 * math.pi / n
    rings = [p + radius * (np.cos(a)[:, None] * s + np.sin(a)[:, None] * u) for p, s, u in zip(path, side, up)]
    ends = [np.repeat(path[:1], n, 0)], [np.repeat(path[-1:], n, 0)]
    return fm.pack(fm.join_rings(ends[0] + rings + ends[1]))


def box_mesh(w, h, d, centre=(0, 0, 0)):
    x, y = w / 2, h / 2
    ring = np.array([[x, y], [-x, y], [-x, -y], [x, -y]])
    lay = lambda z, s=1.0: np.c_[ring * s, np.full(4, z)] + np.array(centre)
    return fm.pack(fm.join_rings([lay(0, 0), lay(0), lay(d), lay(d, 0)]))


def slab(outline, thick):
    """A flat plate with a star-shaped outline about its middle."""
    outline = np.asarray(outline, float)
    mid = outline.mean(0)
    lay = lambda z, s=1.0: np.c_[mid + (outline - mid) * s, np.full(len(outline), z)]
    return fm.pack(fm.join_rings([lay(0, 0), lay(0), lay(thick), lay(thick, 0)]))


LIE = np.array([[0, 0, -1], [0, 1, 0], [1, 0, 0.0]])


def lying(rng, tilt=0.0):
    c, t = math.cos(tilt), math.sin(tilt)
    return np.array([[c, 0, t], [0, 1, 0], [-t, 0, c]]) @ LIE @ fm.rot_z(rng.random() * 6.3)


def countersunk(rng, d, p, length):
    R = d * rng.uniform(0.9, 1.0)
    k = R - d / 2
    rings = [(0, 0), (R * 0.25, 0), (R, 0), (R, -0.3), (d / 2, -k), (d / 2, -k - 0.6)] + thread_rings(d, p, -k - 0.6, -length) + [(d / 2 - p, -length), (0, -length)]
    m = fm.pack(fm.loft(rings, 48))
    return m, lying(rng, math.atan2(R - d / 2, length - k))


def pan_head(rng, d, p, length):
    R, k = d * rng.uniform(0.85, 1.1), d * rng.uniform(0.5, 0.75)
    a = np.linspace(0.0, math.pi / 2, 7)
    rings = [(0, k)] + [(R * math.sin(x), 0.35 * k + 0.65 * k * math.cos(x)) for x in a[1:]] + [(R, 0), (d / 2, 0), (d / 2, -0.5)]
    sharp = rng.random() < 0.5
    rings += thread_rings(d, p * (1.7 if sharp else 1), -0.5, -length) + [(0.2 if sharp else d / 2 - p, -length - (d if sharp else 0)), (0, -length - (d if sharp else 0))]
    return fm.pack(fm.loft(rings, 48)), lying(rng, math.atan2(R - d / 2, length))


def stud(rng, d, p, length):
    mid = rng.uniform(0.15, 0.45)
    a, b = length * (0.5 - mid / 2), length * (0.5 + mid / 2)
    rings = [(0, 0), (d / 2 - p, 0)] + thread_rings(d, p, 0, -a) + [(d / 2 - 0.1, -a), (d / 2 - 0.1, -b)] + thread_rings(d, p, -b, -length) + [(d / 2 - p, -length), (0, -length)]
    return fm.pack(fm.loft(rings, 48)), lying(rng)


def grub(rng, d, p, length):
    key = fm.hex_radius(np.arange(48) * 2 * math.pi / 48, d * 0.5)
    length = min(length, 3 * d)
    rings = [(0, -d * 0.6), (key, -d * 0.6), (key, 0), (d / 2 - p, 0)] + thread_rings(d, p, 0, -length) + [(d / 2 - p, -length), (0, -length - 0.5)]
    return fm.pack(fm.loft(rings, 48)), lying(rng)


def pin(rng, d, p, length):
    r = d / 2
    rings = [(0, 0), (r - 0.5, 0), (r, -0.5), (r, -length + 0.5), (r - 0.5, -length), (0, -length)]
    return fm.pack(fm.loft(rings, 40)), lying(rng)


def bush(rng, d, p, length):
    R, r, h = d * rng.uniform(0.8, 1.3), d * 0.52, d * rng.uniform(0.4, 2.5)
    m = fm.pack(fm.loft([(r, h), (R - 0.3, h), (R, h - 0.3), (R, 0.3), (R - 0.3, 0), (r, 0), (r, h)], 56))
    return m, np.eye(3) if h < 1.6 * R or rng.random() < 0.3 else lying(rng)


def wide_washer(rng, d, p, length):
    R, r, h = d * rng.uniform(1.1, 2.2), d * rng.uniform(0.52, 0.6), rng.uniform(0.5, 2.5)
    return fm.pack(fm.loft([(r, h), (R - 0.2, h), (R, h - 0.2), (R, 0), (r, 0), (r, h)], 72)), np.eye(3)


def spring_washer(rng, d, p, length):
    r, w, h = d * 0.53, d * 0.24, d * 0.22
    th = np.linspace(0.05, 2 * math.pi - 0.08, 60)
    rings = []
    for a in th:
        z = (a / 6.3) * h * 0.7
        c, s = math.cos(a), math.sin(a)
        rings.append(np.array([[q * c, q * s, zz + z] for q, zz in ((r, 0), (r + w, 0), (r + w, h), (r, h))]))
    ends = np.repeat(rings[0].mean(0)[None], 4, 0), np.repeat(rings[-1].mean(0)[None], 4, 0)
    v, f = fm.join_rings([ends[0]] + rings + [ends[1]])
    return fm.pack((v, f[:, ::-1])), np.eye(3)


def wing_nut(rng, d, p, length):
    h = d * 1.1
    body = fm.pack(fm.loft([(d * 0.5, h), (d * 0.72, h), (d * 0.95, 0), (d * 0.5, 0), (d * 0.5, h)], 48))
    parts = [body]
    for side in (-1, 1):
        a = np.linspace(0, 2 * math.pi, 24, endpoint=False)
        w = slab(np.c_[np.cos(a) * d * 0.95, np.sin(a) * d * 0.8 * (1 + 0.2 * np.cos(a))], d * 0.3)
        rot = np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]])
        move = np.array([side * d * 1.45, d * 0.15, d * 1.15])
        parts.append(dict(v=w["v"] @ rot.T + move, n=w["n"] @ rot.T, f=w["f"], cav=w["cav"]))
    m = parts[0]
    for q in parts[1:]:
        m = fm.merge(m, q)
    return m, np.eye(3) if rng.random() < 0.6 else LIE @ fm.rot_z(math.pi / 2)


def dome_nut(rng, d, p, length):
    af, m = d * 1.65, d * 0.8
    top = [(0.93 * af / 2 * math.sin(x), m + 0.8 * d * math.cos(x)) for x in np.linspace(0.01, math.pi / 2, 8)]
    rings = top + fm.hex_rings(af, 0, m, 48, washer_face=False)[2:] + [(d * 0.5, 0), (d * 0.5, m), (0, m)]
    return fm.pack(fm.loft(rings, 48)), np.eye(3)


def flange_nut(rng, d, p, length):
    af, m, R = d * 1.6, d * 0.95, d * rng.uniform(1.0, 1.15)
    rh = fm.hex_radius(np.arange(48) * 2 * math.pi / 48, af)
    rings = [(d * 0.52, m)] + fm.hex_rings(af, 0, m, 48)[1:5] + [(rh, 0.3 * m), (R - 0.4, 0.18 * m), (R, 0.1 * m), (R, 0), (d * 0.52, 0), (d * 0.5, m)]
    return fm.pack(fm.loft(rings, 48)), np.eye(3)


def split_pin(rng, d, p, length):
    t, length, r = np.linspace(0, 1, 40), min(length, 45), rng.uniform(0.6, 1.6)
    head = np.c_[2.2 * r * np.cos(np.linspace(0.5, 5.78, 24)) - 2 * r, 2.2 * r * np.sin(np.linspace(0.5, 5.78, 24))]
    leg = np.c_[t * length, 0.9 * r * np.ones(40) + rng.uniform(0, 0.15) * t * length * rng.integers(0, 2)]
    path = np.concatenate([leg[::-1], head, leg * [0.9, -1]])
    return tube(np.c_[path, np.full(len(path), r)], r), np.eye(3)


def circlip(rng, d, p, length):
    R, w = d * rng.uniform(0.8, 2.2), d * rng.uniform(0.15, 0.3)
    th = np.linspace(0.25, 2 * math.pi - 0.25, 60)
    wide = w * (1 + 0.8 * (np.abs(th - math.pi) > 2.6))
    rings = [np.array([[q * math.cos(a), q * math.sin(a), z] for q, z in ((R, 0), (R + ww, 0), (R + ww, 1.0), (R, 1.0))]) for a, ww in zip(th, wide)]
    ends = np.repeat(rings[0].mean(0)[None], 4, 0), np.repeat(rings[-1].mean(0)[None], 4, 0)
    v, f = fm.join_rings([ends[0]] + rings + [ends[1]])
    return fm.pack((v, f[:, ::-1])), np.eye(3)


def hose_clamp(rng, d, p, length):
    R, w = rng.uniform(7, 20), rng.uniform(6, 11)
    band = fm.pack(fm.loft([(R - 0.5, w), (R, w), (R, 0), (R - 0.5, 0), (R - 0.5, w)], 90))
    house = box_mesh(10, 6, w * 0.9, (R * 0.1, R + 2.4, 0.05 * w))
    screw = fm.pack(fm.loft([(0, 0), (3.2, 0), (3.2, 4), (2.2, 4.2), (2.2, 18), (0, 18)], 24))
    rot = np.array([[0, 0, 1.0], [0, 1, 0], [-1, 0, 0]])
    screw = dict(v=screw["v"] @ rot.T + [-8, R + 4, w / 2], n=screw["n"] @ rot.T, f=screw["f"], cav=screw["cav"])
    return fm.merge(fm.merge(band, house), screw), np.eye(3)


def spring_clip(rng, d, p, length):
    R, w = rng.uniform(3, 9), rng.uniform(4, 9)
    a = np.linspace(0.5, 5.8, 40)
    path = np.concatenate([np.c_[R * np.cos(a), R * np.sin(a)], [[R + 6, -R * 0.2]]])
    t = np.gradient(path, axis=0)
    side = np.c_[-t[:, 1], t[:, 0]] / (np.linalg.norm(t, axis=1, keepdims=True) + 1e-9)
    rings = [np.array([[*(q - 0.4 * s), 0], [*(q - 0.4 * s), w], [*(q + 0.4 * s), w], [*(q + 0.4 * s), 0]]) for q, s in zip(path, side)]
    ends = np.repeat(rings[0].mean(0)[None], 4, 0), np.repeat(rings[-1].mean(0)[None], 4, 0)
    return fm.pack(fm.join_rings([ends[0]] + rings + [ends[1]])), np.eye(3)


def key(rng, d, p, length):
    return box_mesh(min(length, 30), d * 0.8, d * 0.8), np.eye(3)


def disc(rng, d, p, length):
    R, h = rng.uniform(7, 15), rng.uniform(1.2, 2.6)
    return fm.pack(fm.loft([(0, h - 0.2), (R * 0.85, h - 0.2), (R * 0.9, h), (R, h), (R, 0), (0, 0)], 72)), np.eye(3)


ODD = [countersunk, countersunk, pan_head, pan_head, stud, grub, pin, bush, wide_washer, wide_washer, spring_washer, spring_washer, wing_nut,
       dome_nut, flange_nut, flange_nut, split_pin, circlip, hose_clamp, spring_clip, key, disc]
"""Kinds that count as parts but are none of the five that get their own name."""


# ---------------------------------------------------------------- no fasteners

def _plain(rng, roughness=None, metallic=0.0):
    c = np.clip(rng.choice([0.03, 0.2, 0.6]) * (1 + rng.normal(0, 0.8, 3)), 0.01, 0.85)
    return mi.load_dict({"type": "twosided", "bsdf": {"type": "principled", "base_color": {"type": "rgb", "value": c.tolist()}, "metallic": metallic,
                                                     "roughness": float(roughness or rng.uniform(0.2, 0.8))}})


def _steel(rng):
    """Tool steel: chromed, bright or blued."""
    grey = rng.choice([0.72, 0.5, 0.12], p=[0.5, 0.3, 0.2]) * rng.uniform(0.85, 1.1)
    return mi.load_dict({"type": "twosided", "bsdf": {"type": "principled", "base_color": {"type": "rgb", "value": [grey, grey * 0.98, grey * 0.95]},
                                                     "metallic": 1.0, "roughness": float(rng.uniform(0.2, 0.5))}})


def spanner(rng):
    s = rng.uniform(5, 9)
    bar = box_mesh(s * 14, s * 1.1, 4)
    rings = [fm.pack(fm.loft([(s * 0.8, 5), (s * 1.5, 5), (s * 1.5, 0), (s * 0.8, 0), (s * 0.8, 5)], 40)) for _ in range(2)]
    for m, x in zip(rings, (-7.5 * s, 7.5 * s)):
        m["v"] = m["v"] + [x, 0, 0]
    return fm.merge(fm.merge(bar, rings[0]), rings[1]), _steel(rng)


def handle(rng):
    r, n = rng.uniform(5, 13), rng.uniform(60, 120)
    m = fm.pack(fm.loft([(0, 0), (r * 0.8, 0), (r, -5), (r * 0.85, -n * 0.3), (r, -n * 0.6), (r * 0.6, -n * 0.62), (2.5, -n * 0.63), (2.5, -n), (0, -n)], 36))
    m["v"], m["n"] = m["v"] @ LIE.T, m["n"] @ LIE.T
    return m, _plain(rng)


def cord(rng):
    a = np.cumsum(rng.normal(0, 0.12, 90)) + rng.random() * 6
    step = rng.uniform(0.7, 1.6)
    path = np.cumsum(np.c_[np.cos(a), np.sin(a)] * step, 0)
    r = rng.uniform(0.5, 2.5)
    return tube(np.c_[path - path.mean(0), np.full(90, r)], r), _plain(rng)


def strip(rng):
    w, h = rng.uniform(5, 25), rng.uniform(12, 70)
    a = np.linspace(0, 2 * math.pi, 26, endpoint=False)
    out = np.c_[np.sign(np.cos(a)) * np.abs(np.cos(a)) ** 0.2 * w, np.sign(np.sin(a)) * np.abs(np.sin(a)) ** 0.2 * h] / 2
    return slab(out + rng.normal(0, rng.choice([0.05, 0.7]), out.shape), rng.uniform(0.1, 0.4)), _plain(rng, 0.7)


def scrap(rng):
    a = np.linspace(0, 2 * math.pi, int(rng.integers(4, 9)), endpoint=False)
    r = rng.uniform(4, 22) * rng.uniform(0.5, 1.2, len(a))
    return slab(np.c_[r * np.cos(a), r * np.sin(a)], rng.uniform(0.1, 1.0)), _plain(rng, 0.8)


def ball(rng):
    r = rng.uniform(1.5, 7)
    flat = rng.uniform(0.15, 1.0)
    x = np.linspace(0, math.pi, 14)
    return fm.pack(fm.loft([(r * math.sin(q), r * flat * (1 + math.cos(q))) for q in x], 30)), _plain(rng)


def brush(rng):
    m = box_mesh(rng.uniform(60, 120), rng.uniform(12, 25), rng.uniform(6, 12))
    return m, _plain(rng)


def _lie_down(m):
    return dict(m, v=m["v"] @ LIE.T, n=m["n"] @ LIE.T)


def _joined(*parts):
    m = parts[0]
    for q in parts[1:]:
        m = fm.merge(m, q)
    return m


def screwdriver(rng):
    r, n, s = rng.uniform(6, 14), rng.uniform(50, 110), rng.uniform(1.8, 4)
    m = fm.pack(fm.loft([(0, 0), (r * 0.7, 0), (r, -4), (r * 0.9, -n * 0.4), (r, -n * 0.8), (r * 0.6, -n), (s, -n - 1), (s, -n * 2), (s * 0.7, -n * 2.05), (0, -n * 2.05)], 36))
    return _lie_down(m), _plain(rng, 0.3, float(rng.choice([0.0, 0.4])))


def hex_key(rng):
    r, a, b = rng.uniform(1.2, 4), rng.uniform(45, 110), rng.uniform(15, 35)
    turn = np.linspace(0, math.pi / 2, 8)
    path = np.concatenate([np.c_[np.linspace(-a, 0, 20), np.zeros(20)], np.c_[2.5 * r * np.sin(turn), 2.5 * r * (1 - np.cos(turn))][1:], [[2.5 * r, b]]])
    return tube(np.c_[path - path.mean(0), np.full(len(path), r)], r, 6), _steel(rng)


def pen(rng):
    r, n = rng.uniform(3.5, 6.5), rng.uniform(110, 150)
    return _lie_down(fm.pack(fm.loft([(0, 0), (r, -1), (r, -n * 0.85), (1.0, -n), (0, -n)], 30))), _plain(rng, 0.35)


def drill_bit(rng):
    r, n = rng.uniform(1.5, 5), rng.uniform(75, 130)
    th = np.arange(36) * 2 * math.pi / 36
    rings = [(0, 0), (r, 0), (r, -n * 0.35)] + [(r * (0.82 + 0.18 * np.cos(2 * th - 0.5 * q)), -n * 0.35 - q) for q in np.arange(0.5, n * 0.62, 1.2)] + [(0, -n)]
    return _lie_down(fm.pack(fm.loft(rings, 36))), _steel(rng)


def pliers(rng):
    n, parts = rng.uniform(60, 110), []
    for side in (-1, 1):
        t = np.linspace(0, 1, 30)
        bow = side * (8 + 16 * t ** 0.7 * (1 - 0.35 * t)) * (t > 0.02)
        parts.append(tube(np.c_[t * n, bow, np.full(30, 5.0)], rng.uniform(3.5, 6)))
        parts.append(tube(np.c_[-t * n * 0.45, side * 5 * (1 - t) + 0.5 * side, np.full(30, 5.0)], 3.5))
    return _joined(*parts), _steel(rng) if rng.random() < 0.5 else _plain(rng, 0.4)


def tape_roll(rng):
    R, r, h = rng.uniform(24, 42), rng.uniform(14, 22), rng.uniform(8, 25)
    return fm.pack(fm.loft([(r, h), (R, h), (R, 0), (r, 0), (r, h)], 90)), _plain(rng, 0.6)


def blade(rng):
    w, n = rng.uniform(8, 20), rng.uniform(70, 160)
    return box_mesh(n, w, rng.uniform(0.4, 1.2)), _steel(rng)


def wire(rng):
    a = np.cumsum(rng.normal(0, 0.25, 60)) + rng.random() * 6
    path = np.cumsum(np.c_[np.cos(a), np.sin(a)] * rng.uniform(0.5, 1.2), 0)
    r = rng.uniform(0.3, 0.9)
    return tube(np.c_[path - path.mean(0), np.full(60, r)], r, 8), _steel(rng)


def tie_head(rng):
    """The head block of a cut cable tie with a stub of its strap, square or rounded."""
    w, d, h = rng.uniform(3.5, 8), rng.uniform(3.5, 8), rng.uniform(2.5, 5.5)
    parts = [box_mesh(w, d, h)]
    if rng.random() < 0.7:
        n = rng.uniform(3, 22)
        parts.append(box_mesh(n, d * rng.uniform(0.4, 0.7), rng.uniform(0.8, 1.5), (w / 2 + n / 2, 0, rng.uniform(0, 0.4) * h)))
    return _joined(*parts), _plain(rng, 0.35)


def tie_tail(rng):
    """A cut-off strap: straight or bowed, flat or on its edge."""
    n, w, t = rng.uniform(6, 50), rng.uniform(2, 4.8), rng.uniform(0.9, 1.4)
    bend = rng.uniform(-0.03, 0.03)
    s = np.linspace(0, n, 24)
    path = np.c_[np.cumsum(np.cos(bend * s)), np.cumsum(np.sin(bend * s))] * (s[1] - s[0])
    side = np.c_[-np.sin(bend * s), np.cos(bend * s)]
    if rng.random() < 0.3:
        w, t = t, w
    rings = [np.array([[*(p + u * q), z] for u, z in ((w / 2, 0), (w / 2, t), (-w / 2, t), (-w / 2, 0))]) for p, q in zip(path - path.mean(0), side)]
    v, f = fm.join_rings([np.repeat(rings[0].mean(0)[None], 4, 0)] + rings + [np.repeat(rings[-1].mean(0)[None], 4, 0)])
    return fm.pack((v, f)), _plain(rng, 0.35)


def rubber_band(rng):
    """A closed loop that lies slack."""
    a = np.linspace(0, 2 * math.pi, 90)
    r = rng.uniform(10, 32) * (1 + sum(rng.normal(0, 0.25 / k) * np.cos(k * a + rng.random() * 7) for k in range(1, 5)))
    path = np.c_[r * np.cos(a), r * np.sin(a) * rng.uniform(0.4, 1)]
    thick = rng.uniform(0.5, 1.2)
    return tube(np.c_[path, np.full(len(a), thick)], thick, 10), _plain(rng, 0.7)


def swarf(rng):
    """A curled chip of metal or plastic."""
    turns, r, rise = rng.uniform(0.6, 5), rng.uniform(1.0, 4.5), rng.uniform(0.4, 2.5)
    a = np.linspace(0, 2 * math.pi * turns, int(24 * turns) + 8)
    path = np.c_[rise * a / 3, r * np.cos(a), r * np.sin(a) + r]
    thick = rng.uniform(0.15, 0.5)
    return tube(path - [path[:, 0].mean(), 0, 0], thick, 6), _steel(rng) if rng.random() < 0.7 else _plain(rng)


def wire_end(rng):
    """A snip of insulated wire."""
    n, r = rng.uniform(5, 35), rng.uniform(0.6, 2.0)
    bend = rng.normal(0, 0.03, 20)
    a = np.cumsum(bend) * rng.choice([0.3, 2.0])
    path = np.cumsum(np.c_[np.cos(a), np.sin(a)], 0) * n / 20
    return tube(np.c_[path - path.mean(0), np.full(20, r)], r, 12), _plain(rng, 0.4)


def crumbs(rng):
    """A few lumps of dirt, of sealant or of rust."""
    parts = []
    for _ in range(int(rng.integers(1, 7))):
        r, x = rng.uniform(0.5, 2.5), np.linspace(0, math.pi, 9)
        flat = rng.uniform(0.3, 1.0)
        m = fm.pack(fm.loft([(r * math.sin(q) * rng.uniform(0.8, 1.2) + 1e-3, r * flat * (1 + math.cos(q))) for q in x], 12))
        m["v"] = m["v"] + [*rng.normal(0, 7, 2), 0]
        parts.append(m)
    return _joined(*parts), _plain(rng, 0.9)


def paper_corner(rng):
    """A torn corner of a label or a slip, bright and nearly flat."""
    size = rng.uniform(4, 18)
    out = np.array([[0, 0], [size, 0], [size * rng.uniform(0.4, 1.0), size * rng.uniform(0.3, 0.9)], [0, size]]) + rng.normal(0, 0.3, (4, 2))
    grey = float(rng.uniform(0.55, 0.85))
    return slab(out - out.mean(0), rng.uniform(0.1, 0.3)), mi.load_dict({"type": "twosided", "bsdf": {"type": "diffuse", "reflectance": {"type": "rgb", "value": [grey, grey, grey * 0.95]}}})


BITS = [tie_head, tie_head, tie_tail, tie_tail, rubber_band, swarf, wire_end, wire_end, crumbs, paper_corner]
"""Small waste that is left behind in trays."""
NO_PARTS = [spanner, spanner, handle, screwdriver, screwdriver, hex_key, hex_key, pen, drill_bit, pliers, tape_roll, blade, wire, cord, cord, cord,
            strip, strip, scrap, scrap, ball, brush,
            *BITS]
