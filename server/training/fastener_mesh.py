"""Metric fastener shapes: ISO sizes, triangle meshes with real helical threads, rest poses.

Part frame: the axis is z. Bolts and screws have the under-head plane at z = 0, the head
towards +z and the tip at z = -length. Nuts and washers stand on z = 0. Units: mm.
"""
import math
from functools import lru_cache
import numpy as np

# ISO 261 pitch; ISO 4017 head (af, k); ISO 4762 head (sd, sk), key size; ISO 4032 nut
# height m; ISO 7089 washer (bore, outside diameter, thickness); EN 1665 flange (diameter, k).
SIZES = {
    "M5": dict(d=5, p=0.8, af=8, k=3.5, sd=8.5, sk=5, key=4, m=4.7, washer=(5.3, 10, 1.0), fl=(11.4, 5.6)),
    "M6": dict(d=6, p=1.0, af=10, k=4.0, sd=10, sk=6, key=5, m=5.2, washer=(6.4, 12, 1.6), fl=(13.6, 6.8)),
    "M8": dict(d=8, p=1.25, af=13, k=5.3, sd=13, sk=8, key=6, m=6.8, washer=(8.4, 16, 1.6), fl=(17.0, 8.5)),
    "M10": dict(d=10, p=1.5, af=16, k=6.4, sd=16, sk=10, key=8, m=8.4, washer=(10.5, 20, 2.0), fl=(20.8, 9.7)),
}
SIZES["M4"] = dict(d=4, p=0.7, af=7, k=2.8, sd=7, sk=4, key=3, m=3.2, washer=(4.3, 9, 0.8), fl=(9.4, 4.6))
SIZES["M12"] = dict(d=12, p=1.75, af=18, k=7.5, sd=18, sk=12, key=10, m=10.8, washer=(13, 24, 2.5), fl=(24.7, 11.6))
BOLTS = ("hex_bolt", "socket_screw", "flange_bolt")


def hex_radius(theta, af):
    """Distance from the axis to a hexagon of width `af` (a flat faces theta = 0)."""
    return af / 2 / np.cos((theta + math.pi / 6) % (math.pi / 3) - math.pi / 6)


def loft(rings, n):
    """Join closed rings (each: radius and height, scalars or n-arrays) into a triangle mesh."""
    th = np.arange(n) * 2 * math.pi / n
    pts = []
    for r, z in rings:
        r, z = np.broadcast_to(r, n), np.broadcast_to(z, n)
        pts.append(np.stack([r * np.cos(th), r * np.sin(th), z], 1))
    return join_rings(pts)


def join_rings(pts):
    v = np.concatenate(pts)
    n, m = len(pts[0]), len(pts)
    i = np.arange(n)
    j = (i + 1) % n
    f = []
    for k in range(m - 1):
        a, b = k * n, (k + 1) * n
        f += [np.stack([a + i, b + i, b + j], 1), np.stack([a + i, b + j, a + j], 1)]
    f = np.concatenate(f)
    area = np.linalg.norm(np.cross(v[f[:, 1]] - v[f[:, 0]], v[f[:, 2]] - v[f[:, 0]]), axis=1)
    return v, f[area > 1e-7]


def creased(v, f, angle=32.0):
    """Split a mesh to one vertex per face corner, smoothing only below the crease angle."""
    _, inv = np.unique(np.round(v, 4), axis=0, return_inverse=True)
    fi = inv.reshape(-1)[f]
    fn = np.cross(v[f[:, 1]] - v[f[:, 0]], v[f[:, 2]] - v[f[:, 0]])
    un = fn / np.linalg.norm(fn, axis=1, keepdims=True)
    corner_v, corner_f = fi.ravel(), np.repeat(np.arange(len(f)), 3)
    order = np.argsort(corner_v, kind="stable")
    starts = np.searchsorted(corner_v[order], np.arange(corner_v.max() + 2))
    normals = np.zeros((len(corner_v), 3))
    for a, b in zip(starts[:-1], starts[1:]):
        c = order[a:b]
        faces = corner_f[c]
        near = un[faces] @ un[faces].T > math.cos(math.radians(angle))
        normals[c] = near @ fn[faces]
    normals /= np.linalg.norm(normals, axis=1, keepdims=True) + 1e-12
    return v[f].reshape(-1, 3), normals, np.arange(len(f) * 3).reshape(-1, 3)


def thread_height(u):
    """ISO 68-1 profile: 0 at the root, 1 at the crest, for the position u in pitches."""
    return np.clip((1 - np.abs(2 * (u % 1.0) - 1) - 0.25) / 0.625, 0, 1)


def hex_rings(af, z_low, z_high, n, washer_face=True):
    """Rings of a hexagon from its chamfered top down to its bearing face."""
    th = np.arange(n) * 2 * math.pi / n
    rh, rc = hex_radius(th, af), 0.475 * af
    rings = [(rc * 0.5, z_high), (rc, z_high)]
    rings += [(rc + (rh - rc) * t, z_high - (rh - rc) * t * math.tan(math.radians(27))) for t in (0.35, 0.7, 1.0)]
    if washer_face:
        rings += [(rh, z_low + 0.35), (rc, z_low + 0.35), (rc, z_low)]
    else:
        rings += [(rc + (rh - rc) * t, z_low + (rh - rc) * t * math.tan(math.radians(27))) for t in (1.0, 0.7, 0.35)]
        rings += [(rc, z_low)]
    return rings


def head_rings(kind, s, n):
    """(rings from the top centre to the under-head face, head height, widest radius)"""
    i = np.arange(n)
    th = i * 2 * math.pi / n
    if kind == "hex_bolt":
        return [(0, s["k"])] + hex_rings(s["af"], 0.0, s["k"], n), s["k"], s["af"] / 2
    if kind == "flange_bolt":
        dc, k = s["fl"]
        rh = hex_radius(th, s["af"])
        top = hex_rings(s["af"], 0.0, k, n)[:5]
        rings = [(0, k - 0.5), (s["af"] * 0.28, k - 0.5), (s["af"] * 0.34, k)] + top[1:]
        rings += [(rh, 0.34 * k), (np.maximum(rh, 0.40 * dc) + 0.4, 0.27 * k), (dc / 2 - 0.3, 0.16 * k),
                  (dc / 2, 0.11 * k), (dc / 2 - 0.15, 0.02 * k), (dc / 2 - 0.5, 0.0)]
        return rings, k, dc / 2
    R, k, key = s["sd"] / 2, s["sk"], hex_radius(th, s["key"])
    knurl = R - 0.16 * (i % 2)
    rings = [(0, k * 0.42), (key, k * 0.5), (key, k - 0.25), (key + 0.3, k), (R * 0.93, k), (R - 0.12, k - 0.45),
             (R - 0.12, k - 0.8), (knurl, k - 1.0), (knurl, 0.7), (R - 0.12, 0.5), (R - 0.12, 0.25), (R - 0.35, 0.0)]
    return rings, k, R


@lru_cache(maxsize=None)
def part_mesh(kind, thread, length=0, full=True, fine=True):
    """dict(v, n, f, cav): vertices, normals, faces, cavity 0..1 (1 = thread root or recess).

    `fine=False` gives a light mesh without thread relief, for outlines and collisions.
    """
    s = SIZES[thread]
    n = 96 if fine else 48
    th = np.arange(n) * 2 * math.pi / n
    d, p = s["d"], s["p"]
    depth = 0.6134 * p
    if kind == "washer":
        di, do, h = s["washer"]
        e = 0.18 * h
        rings = [(di / 2 + (do / 2 - e - di / 2) * q, h) for q in (0, 0.25, 0.5, 0.75)] + [(do / 2 - e, h), (do / 2 - 0.3 * e, h - 0.4 * e), (do / 2, h - 1.2 * e), (do / 2, 0),
                 (di / 2 + 0.05, 0), (di / 2, 0.06), (di / 2, h)]
        return pack(loft(rings, n))
    if kind == "hex_nut":
        m, ch = s["m"], d / 2 + 0.25
        outer = [(ch, m)] + hex_rings(s["af"], 0, m, n, washer_face=False)[1:] + [(ch, 0)]
        if not fine:
            return pack(loft(outer + [(d / 2 - depth, 0.5), (d / 2 - depth, m - 0.5), (ch, m)], n))
        inner = [(ch, 0.0)]
        for z in np.arange(0.0, m + 1e-6, p / 8):
            r = d / 2 - depth * (1 - thread_height(z / p - th / (2 * math.pi)))
            inner.append((np.maximum(r, ch - np.minimum(z, m - z)), z))
        a, b = pack(loft(outer, n)), pack(loft(inner + [(ch, m)], n), cav=0.75)
        return merge(a, b)
    rings, k, _ = head_rings(kind, s, n)
    d_pad = (d / 2 + 0.4, 0.0)
    head = pack(loft(rings + [d_pad, (d / 2, -0.4)], n))
    if kind == "socket_screw":  # the key recess collects dirt and is seen dark
        r = np.hypot(head["v"][:, 0], head["v"][:, 1])
        head["cav"] = np.where((r < s["key"] * 0.6) & (head["v"][:, 2] < k - 0.1), 0.8, 0.0)
    core, tip = d / 2 - depth, (d / 2 - depth - 0.15, -length)
    if not fine:
        return merge(head, pack(loft([(d / 2, 0), (d / 2, -length + 0.8 * depth), tip, (0, -length)], n)))
    n = 48
    th = np.arange(n) * 2 * math.pi / n
    start = 1.5 * p if full else max(length - (2 * d + 6), 1.5 * p)
    shank, cav = [(d / 2, 0.0), (d / 2 - (0 if full else 0.02), -start + p)], [0.0, 0.0]
    for z in np.arange(start - p, length, p / 8):
        u = thread_height(z / p + th / (2 * math.pi))  # right-handed (z runs down here)
        fade = np.clip((z - start + p) / p, 0, 1)
        r = d / 2 - depth * (1 - u) * fade
        limit = core - 0.15 + (length - z)  # 45 degree chamfer at the tip
        shank.append((np.minimum(r, limit), -z))
        cav.append((1 - u) * fade)
    shank += [tip, (0, -length)]
    cav += [0.2, 0.2]
    v, f = loft(shank, n)
    body = dict(v=v, f=f, n=smooth_normals(v, f, n), cav=np.concatenate([np.broadcast_to(c, n) for c in cav]))
    return merge(head, body)


def smooth_normals(v, f, n):
    fn = np.cross(v[f[:, 1]] - v[f[:, 0]], v[f[:, 2]] - v[f[:, 0]])
    out = np.zeros_like(v)
    for c in range(3):
        np.add.at(out, f[:, c], fn)
    out[-2 * n:] = (0, 0, -1)  # flat tip
    return out / (np.linalg.norm(out, axis=1, keepdims=True) + 1e-12)


def pack(mesh, cav=0.0):
    v, n, f = creased(*mesh)
    return dict(v=v, n=n, f=f, cav=np.full(len(v), cav))


def merge(a, b):
    return dict(v=np.concatenate([a["v"], b["v"]]), n=np.concatenate([a["n"], b["n"]]),
                f=np.concatenate([a["f"], b["f"] + len(a["v"])]), cav=np.concatenate([a["cav"], b["cav"]]))


def part_info(kind, thread, length):
    s = SIZES[thread]
    if kind == "washer":
        bore, od, h = s["washer"]
        return dict(bore_mm=bore, outside_dia_mm=od, height_mm=h)
    if kind == "hex_nut":
        return dict(head_af_mm=s["af"], height_mm=s["m"])
    k = {"hex_bolt": s["k"], "socket_screw": s["sk"], "flange_bolt": s["fl"][1]}[kind]
    out = dict(length_mm=length, head_height_mm=k, total_length_mm=length + k)
    if kind == "socket_screw":
        out["head_dia_mm"] = s["sd"]
    else:
        out["head_af_mm"] = s["af"]
    if kind == "flange_bolt":
        out["flange_dia_mm"] = s["fl"][0]
    return out


def rest_rotation(kind, thread, length, standing, rng):
    """Rotation matrix of a part lying at rest on a flat floor, without yaw."""
    if kind not in BOLTS:
        return np.diag([1.0, -1, -1]) if rng.random() < 0.5 else np.eye(3)
    if standing:
        return np.diag([1.0, -1, -1])
    s = SIZES[thread]
    _, k, rad = head_rings(kind, s, 48)
    # Half profile seen from the side: a runs from the head top (-k) to the tip (length).
    if kind == "flange_bolt":
        pts = [(-k, s["af"] / 2), (-0.1 * k, rad), (0.0, rad - 0.5), (length, s["d"] / 2 - 0.6 * s["p"])]
    else:
        pts = [(-k, rad - 0.3), (-k + 0.4, rad), (0.0, rad), (length - s["p"] * 0.6, s["d"] / 2)]
    vh, vs = rad ** 2 * math.pi * k * (0.75 if kind == "flange_bolt" else 0.95), math.pi * (s["d"] * 0.47) ** 2 * length
    com = (vh * -k * 0.45 + vs * length / 2) / (vh + vs)
    hull = [pts[0]]
    for q in pts[1:]:
        while len(hull) > 1 and (hull[-1][1] - hull[-2][1]) * (q[0] - hull[-1][0]) <= (q[1] - hull[-1][1]) * (hull[-1][0] - hull[-2][0]):
            hull.pop()
        hull.append(q)
    for (a1, r1), (a2, r2) in zip(hull[:-1], hull[1:]):
        if a1 <= com <= a2:
            break
    tilt = math.atan2(r1 - r2, a2 - a1)
    roll = rng.integers(6) * math.pi / 3 if kind == "hex_bolt" else rng.random() * 2 * math.pi
    lay = np.array([[0, 0, -1], [0, 1, 0], [1, 0, 0.0]])
    c, t = math.cos(tilt), math.sin(tilt)
    return np.array([[c, 0, t], [0, 1, 0], [-t, 0, c]]) @ lay @ rot_z(roll)


def rot_z(a):
    return np.array([[math.cos(a), -math.sin(a), 0], [math.sin(a), math.cos(a), 0], [0, 0, 1.0]])


def convex_pieces(kind, thread, length):
    """Convex point sets that approximate the part, for rigid-body collisions."""
    s = SIZES[thread]
    ang = np.arange(24) * math.pi / 12

    def disc(r, z):
        return np.stack([r * np.cos(ang), r * np.sin(ang), np.full(24, z)], 1)
    if kind in BOLTS:
        _, k, rad = head_rings(kind, s, 48)
        shank = np.concatenate([disc(s["d"] / 2, 0.0), disc(s["d"] / 2 - 0.4, -length)])
        if kind == "socket_screw":
            return [np.concatenate([disc(rad, 0.0), disc(rad, k)]), shank]
        hexa = np.stack([hex_radius(ang, s["af"]) * np.cos(ang), hex_radius(ang, s["af"]) * np.sin(ang)], 1)
        hexa = np.concatenate([np.c_[hexa, np.full(24, 0.0)], np.c_[hexa, np.full(24, k)]])
        flange = [np.concatenate([disc(rad, 0.05 * k), disc(rad, 0.16 * k)])] if kind == "flange_bolt" else []
        return [hexa, shank] + flange
    if kind == "washer":
        return [np.concatenate([disc(s["washer"][1] / 2, 0.0), disc(s["washer"][1] / 2, s["washer"][2])])]
    hexa = np.stack([hex_radius(ang, s["af"]) * np.cos(ang), hex_radius(ang, s["af"]) * np.sin(ang)], 1)
    return [np.concatenate([np.c_[hexa, np.zeros(24)], np.c_[hexa, np.full(24, s["m"])]])]
