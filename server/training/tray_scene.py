"""Everything in the picture but the layout: surfaces, labels, camera, lights, the phone's own processing.

Used by make_scenes.py. Lengths in mm, z up. Pixel coordinates follow OpenCV.
"""
import math, os
from functools import lru_cache
import cv2, numpy as np, qrcode
from PIL import Image, ImageDraw, ImageFont
import fastener_mesh as fm

import drjit as dr, mitsuba as mi
mi.set_variant(os.environ.get("SCENE_VARIANT", "cuda_ad_rgb"))


# ---------------------------------------------------------------- textures

extra_surfaces = {}  # name -> function(rng, n) -> colour, roughness, metallic, bump, specular; see floors.py
extra_finishes = {}  # name -> (colour, roughness); see oddments.py

def fbm(rng, h, w, base=4, octaves=6, gain=0.55, stretch=1.0):
    """Cloud-like noise in 0..1; stretch > 1 makes streaks along x."""
    out = np.zeros((h, w), np.float32)
    for o in range(octaves):
        n = base * 2 ** o
        g = rng.random((max(2, n), max(2, int(n / stretch))), dtype=np.float32) - 0.5
        out += gain ** o * cv2.resize(g, (w, h), interpolation=cv2.INTER_CUBIC)
    return np.clip(0.5 + out * 0.55, 0, 1)


def scratches(rng, h, w, count, length, width=1):
    img = np.zeros((h, w), np.uint8)
    for _ in range(count):
        p, a, ln = rng.random(2) * (w, h), rng.random() * math.pi, length * rng.exponential()
        q = p + ln * np.array([math.cos(a), math.sin(a)])
        mid = (p + q) / 2 + rng.normal(0, ln * 0.05, 2)
        cv2.polylines(img, [np.int32([p, mid, q])], False, int(rng.integers(60, 255)), width, cv2.LINE_AA)
    return img.astype(np.float32) / 255


def stain_mask(rng, n, count, size=0.2):
    """Soft-edged blobs in 0..1 on an n x n texture."""
    y, x = np.mgrid[0:n, 0:n].astype(np.float32) / n
    warp, fine = (fbm(rng, n, n, 5) - 0.5) * 0.35 * size / 0.2, fbm(rng, n, n, 120, 2)
    m = np.zeros((n, n), np.float32)
    for _ in range(count):
        c, s = rng.random(2) * 0.8 + 0.1, size * rng.uniform(0.4, 1.0)
        d = np.hypot(x - c[0], (y - c[1]) * rng.uniform(0.8, 1.4)) + warp + (fine - 0.5) * 0.02
        m = np.maximum(m, np.clip((s - d) / (0.15 * s + 0.006), 0, 1))
    return m


def surface(kind, rng, oil=0, n=960, repeat=1, extra=None):
    """Mitsuba BSDF dict of a floor or bench surface, plus a short name for the truth file."""
    cloud, fine = fbm(rng, n, n, 4), fbm(rng, n, n, 160, 3)
    grain, scr = rng.normal(0, 1, (n, n)).astype(np.float32), scratches(rng, n, n, 160, n * 0.12)
    metallic, bump, spec = 0.0, None, 0.5
    if kind == "steel":
        streak = fbm(rng, n, n, 320, 2, stretch=40)
        scr = scr + scratches(rng, n, n, 500, n * 0.03) * 0.7
        v = 0.50 + 0.12 * (cloud - 0.5) + 0.10 * (streak - 0.5) + 0.10 * scr - 0.05 * (fine - 0.5)
        rgb = v[..., None] * np.array([1.0, 0.985, 0.96])
        rough, metallic = 0.42 + 0.18 * (cloud - 0.5) + 0.10 * (streak - 0.5), 0.95
    elif kind in ("black_plastic", "blue_plastic"):
        base = np.array([0.022, 0.022, 0.024]) if kind == "black_plastic" else np.array([0.02, 0.085, 0.33])
        dust = np.clip(fbm(rng, n, n, 12, 6) - 0.5, 0, 1) * 0.06
        rgb = base * (0.9 + 0.2 * cloud[..., None]) + (scr * rng.uniform(0.0, 0.08) + dust)[..., None] * np.array([0.5, 0.5, 0.48])
        rough = 0.34 + 0.2 * (cloud - 0.5) + 0.12 * scr
        bump = cv2.GaussianBlur(grain, (0, 0), 1.2) * rng.choice([0.0, 0.05, 0.16]) - 0.10 * scr
    elif kind == "paper":
        v = 0.78 + 0.03 * (cloud - 0.5) + 0.02 * grain.clip(-2, 2) * 0.5
        rgb, rough, spec = v[..., None] * np.array([1.0, 0.99, 0.965]), np.full((n, n), 0.9), 0.2
        smudge = np.clip(fbm(rng, n, n, int(rng.integers(5, 14)), 7, 0.7) - 0.66, 0, 1)[..., None] * rng.uniform(0, 1.6)
        smudge = smudge + 0.5 * scratches(rng, n, n, int(rng.integers(0, 40)), n * 0.02, 2)[..., None]  # grease marks
        rgb = rgb * (1 - smudge * np.array([0.4, 0.45, 0.5]))
    elif kind == "cardboard":
        flute = 0.5 + 0.5 * np.sin(np.arange(n) / n * 2 * math.pi * 52 + 0.6)[None, :]
        fibre = 0.6 * scratches(rng, n, n, 2500, n * 0.006) + 0.4 * fbm(rng, n, n, 300, 1)
        v = 1 + 0.22 * (cloud - 0.5) - 0.22 * (fibre - 0.3) - 0.04 * flute + 0.035 * grain
        rgb, rough, spec = v[..., None] * np.array([0.36, 0.235, 0.13]), np.full((n, n), 0.85), 0.2
        bump = 0.3 * np.broadcast_to(flute, (n, n)).astype(np.float32) + fibre * 0.4
    elif kind == "wood":
        ring = fbm(rng, n, n, 60, 3, stretch=24)
        v = 0.75 + 0.6 * (ring - 0.5) + 0.35 * (cloud - 0.5) - 0.25 * scr
        pore = np.clip(fbm(rng, n, n, 420, 1, stretch=14) - 0.62, 0, 1)
        rgb = (v * (1 - 1.4 * pore))[..., None] * np.array([0.33, 0.20, 0.11]) * (1 - 0.5 * stain_mask(rng, n, 3, 0.1)[..., None])
        rough = 0.5 + 0.3 * (cloud - 0.5)
    elif kind in extra_surfaces:
        rgb, rough, metallic, bump, spec = extra_surfaces[kind](rng, n)
    else:  # painted or laminate bench
        base = {"bench_grey": (0.28, 0.29, 0.30), "bench_green": (0.10, 0.20, 0.13)}[kind]
        rgb = np.array(base) * (0.85 + 0.4 * (cloud[..., None] - 0.2)) + 0.025 * scr[..., None]
        rough = 0.45 + 0.3 * (cloud - 0.5)
    if oil:
        m = stain_mask(rng, n, oil)
        rgb = rgb * (1 - m[..., None] * np.array([0.55, 0.62, 0.70]) * (0.5 if metallic else 1))
        soaks = kind in ("paper", "cardboard")
        rough = rough * (1 - m) + m * (0.5 if soaks else 0.24 if metallic else 0.13)
        spec = spec if soaks else 0.6
    if extra is not None:
        rgb, rough, relief = extra(rng, rgb, rough)
        bump = relief if bump is None else bump if relief is None else bump + relief
    tex = lambda a: {"type": "bitmap", "bitmap": mi.Bitmap(np.ascontiguousarray(a, np.float32)), "raw": True,
                     "wrap_mode": "mirror", "to_uv": mi.ScalarTransform4f().scale([repeat, repeat, 1])}
    bsdf = {"type": "principled", "base_color": tex(rgb.clip(0.004, 0.95)), "metallic": metallic, "specular": spec,
            "roughness": tex(np.broadcast_to(rough, (n, n)).clip(0.08, 1.0)[..., None])}
    if bump is not None:
        bsdf = {"type": "bumpmap", "bsdf": bsdf, "scale": 0.35, "tex": tex(bump[..., None])}
    return {"type": "twosided", "bsdf": bsdf}


def room_light(rng, level, warm):
    """Environment map: a plausible workshop for metal to reflect (dark below, shelves, ceiling)."""
    h, w = 256, 512
    el = np.linspace(1, -1, h)[:, None, None]
    img = np.where(el > 0, 0.35 + 0.5 * el, 0.22 + 0.1 * el) * np.ones((h, w, 3))
    for _ in range(30):  # shelves, people, doors
        x, y, ww, hh = rng.integers(w), rng.integers(40, 160), rng.integers(10, 70), rng.integers(15, 80)
        img[y:y + hh, x:x + ww] *= rng.uniform(0.15, 1.8) * (0.8 + 0.4 * rng.random(3))
    for _ in range(rng.integers(1, 4)):  # small windows and lamps
        x, y = rng.integers(w - 60), rng.integers(10, 90)
        img[y:y + rng.integers(10, 40), x:x + rng.integers(15, 60)] += rng.uniform(1.5, 5)
    img = cv2.GaussianBlur(img.astype(np.float32), (0, 0), 2.0) * np.array(warm, np.float32) * level
    to_world = mi.ScalarTransform4f().rotate([1, 0, 0], 90)
    return {"type": "envmap", "bitmap": mi.Bitmap(img.astype(np.float32)), "to_world": to_world}


# ---------------------------------------------------------------- labels

@lru_cache(maxsize=64)
def label_image(payload, symbol_mm, caption):
    """(grey label bitmap, its size in mm, the QR symbol's corners in mm from the centre, y up)."""
    qr = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=4, box_size=12)
    qr.add_data(payload)
    qr.make(fit=True)
    img = np.array(qr.make_image().get_image().convert("L"))
    q, n = 48, img.shape[0]
    px = np.array([q, q, n - q, n - q], float)
    strip = Image.new("L", (n, 72), 255)
    ImageDraw.Draw(strip).text((n / 2, 26), caption, 20, ImageFont.load_default(50), anchor="mm")
    img = np.concatenate([img, np.array(strip)])
    mm = symbol_mm / (px[2] - px[0])
    h, w = img.shape
    cx = lambda x: (x - w / 2) * mm
    cy = lambda y: (h / 2 - y) * mm
    corners = np.array([[cx(px[0]), cy(px[1])], [cx(px[2]), cy(px[1])], [cx(px[2]), cy(px[3])], [cx(px[0]), cy(px[3])]])
    return img, (w * mm, h * mm), corners, payload


def sheet_shape(img, size, pos, yaw, rng=None):
    """A printed sheet lying flat: Mitsuba rectangle textured with a grey or RGB image."""
    a = (img if img.ndim == 3 else np.repeat(img[..., None], 3, 2)).astype(np.float32) / 255
    a = a[::-1, :, :3] ** 2.2 * 0.80 + 0.035  # Mitsuba's v axis points down the bitmap here
    if rng is not None:  # handling marks
        h, w = a.shape[:2]
        a *= 1 - (np.clip(fbm(rng, h, w, 4) - 0.6, 0, 1) * rng.uniform(0, 1.6))[..., None]
    T = mi.ScalarTransform4f()
    t = T.translate([pos[0], pos[1], pos[2]]).rotate([0, 0, 1], math.degrees(yaw)).scale([size[0] / 2, size[1] / 2, 1])
    tex = {"type": "bitmap", "bitmap": mi.Bitmap(np.ascontiguousarray(a)), "raw": True}
    return {"type": "rectangle", "to_world": t, "bsdf": {"type": "twosided", "bsdf": {
        "type": "principled", "base_color": tex, "roughness": 0.55, "specular": 0.35}}}


def place2d(pts, pos, yaw):
    return np.asarray(pts) @ fm.rot_z(yaw)[:2, :2].T + np.asarray(pos)[:2]


# ---------------------------------------------------------------- camera

class Camera:
    """Pinhole camera; world to camera is x_cam = R x_world + t (x right, y down, z forward)."""

    def __init__(self, pos, target, roll, size, diag_fov):
        self.pos, self.size, self.fov = np.array(pos, float), size, diag_fov
        f = np.array(target, float) - self.pos
        f /= np.linalg.norm(f)
        up = np.array([0, 1, 0.0]) if abs(f[2]) > 0.5 else np.array([0, 0, 1.0])
        r = np.cross(f, up)
        r /= np.linalg.norm(r)
        d = np.cross(f, r)
        c, s = math.cos(roll), math.sin(roll)
        self.R = np.stack([c * r + s * d, -s * r + c * d, f])
        self.t = -self.R @ self.pos
        fpx = math.hypot(*size) / 2 / math.tan(math.radians(diag_fov) / 2)
        self.K = np.array([[fpx, 0, size[0] / 2 - 0.5], [0, fpx, size[1] / 2 - 0.5], [0, 0, 1]])

    def project(self, p):
        q = (np.asarray(p, float) @ self.R.T + self.t) @ self.K.T
        return q[:, :2] / q[:, 2:]

    def to_mitsuba(self, spp):
        m = np.eye(4)
        m[:3, 0], m[:3, 1], m[:3, 2], m[:3, 3] = -self.R[0], -self.R[1], self.R[2], self.pos
        return {"type": "perspective", "fov": self.fov, "fov_axis": "diagonal", "near_clip": 5.0, "far_clip": 9000.0,
                "to_world": mi.ScalarTransform4f(m), "sampler": {"type": "independent", "sample_count": spp},
                "film": {"type": "hdrfilm", "width": self.size[0], "height": self.size[1], "rfilter": {"type": "box"}}}


# ---------------------------------------------------------------- scene objects

def mesh_object(name, v, n, f, bsdf, color=None, rough=None, uv=None):
    props = mi.Properties()
    props["mesh_bsdf"] = bsdf
    m = mi.Mesh(name, len(v), len(f), has_vertex_normals=True, has_vertex_texcoords=uv is not None, props=props)
    if color is not None:
        m.add_attribute("vertex_color", 3, np.ascontiguousarray(color, np.float32).ravel())
        m.add_attribute("vertex_rough", 1, np.ascontiguousarray(rough, np.float32).ravel())
    p = mi.traverse(m)
    p["vertex_positions"] = np.ascontiguousarray(v, np.float32).ravel()
    p["vertex_normals"] = np.ascontiguousarray(n, np.float32).ravel()
    p["faces"] = np.ascontiguousarray(f, np.uint32).ravel()
    if uv is not None:
        p["vertex_texcoords"] = np.ascontiguousarray(uv, np.float32).ravel()
    p.update()
    return m


def part_object(name, part, bsdf, rng, dirt):
    """Finish as vertex colours: plating, dirt in thread roots and recesses, oily patches."""
    v, m = part.world(), part.mesh
    base, rough = {"zinc": ((0.74, 0.75, 0.77), 0.30), "yellow": ((0.72, 0.60, 0.34), 0.30), "black": ((0.045, 0.043, 0.042), 0.36),
                   "stainless": ((0.60, 0.575, 0.55), 0.22), **extra_finishes}[part.finish]
    base = np.array(base) * rng.uniform(0.88, 1.06) * (1 + rng.normal(0, 0.015, 3))
    noise = np.zeros(len(v))
    for _ in range(6):
        k = rng.normal(0, 0.35, 3)
        noise += np.sin(m["v"] @ k * 2 + rng.random() * 7) / 6
    patch = np.clip((noise - 0.25 + 0.35 * dirt * rng.random()) * 4, 0, 1) * min(1, dirt)
    shade = (1 - 0.10 * (noise + 0.5)) * (1 - (0.30 + 0.45 * dirt) * m["cav"]) * (1 - 0.6 * patch)
    color = base * shade[:, None]
    color = color * (1 - patch[:, None] * np.array([0.0, 0.12, 0.25]))
    rough = rough + rng.normal(0, 0.04) + 0.12 * noise + 0.1 * m["cav"] - 0.08 * patch
    return mesh_object(name, v, m["n"] @ part.rot.T, m["f"], bsdf, color.clip(0.01, 0.95), rough.clip(0.12, 0.7))


def shape_number(scene, name):
    """The number that the shape_index channel shows for the named shape."""
    k = [s.id() for s in scene.shapes()].index(name)
    if mi.variant().startswith("scalar"):
        return k + 1
    return int(dr.reinterpret_array(mi.UInt32, mi.ShapePtr(scene.shapes()[k]))[0])


def rounded_rect(x0, y0, x1, y1, r, z, n=12):
    """Closed ring of points and outward normals."""
    a = (np.arange(n) + 0.5) / n * math.pi / 2
    pts, nrm = [], []
    for cx, cy, q in ((x1 - r, y1 - r, 0), (x0 + r, y1 - r, 1), (x0 + r, y0 + r, 2), (x1 - r, y0 + r, 3)):
        u = np.stack([np.cos(a + q * math.pi / 2), np.sin(a + q * math.pi / 2)], 1)
        pts.append(np.array([cx, cy]) + r * u)
        nrm.append(u)
    return np.c_[np.concatenate(pts), np.full(4 * n, z)], np.concatenate(nrm)


class Tray:
    """A tray (or carton) with its label; `interior` is the flat floor's rectangle."""

    def __init__(self, center, w, h, floor, wall, lip, fillet, corner, ledge=0.0):
        cx, cy = center
        self.floor, self.wall, self.lip, self.corner, self.fillet = floor, wall, lip, corner, fillet
        self.rect = (cx - w / 2, cy - h / 2, cx + w / 2, cy + h / 2)
        x0, y0, x1, y1 = self.rect
        self.interior = (x0 + fillet, y0 + fillet, x1 - fillet, y1 - fillet)
        self.ledge, self.keepout, self.parts, self.label = ledge, [], [], None
        g = wall * 0.10
        self.outer = (x0 - g - lip, y0 - g - lip, x1 + g + lip, y1 + g + max(lip, ledge))

    def must_see(self):
        """Points (mm) that a sensible photo of this tray contains: its floor and the whole label."""
        x0, y0, x1, y1 = self.interior
        w, h = self.label["paper"]
        lab = place2d(np.array([[-w, h], [w, h], [w, -h], [-w, -h]]) / 2, self.label["pos"], self.label["yaw"])
        return np.array([[x0, y0, 0], [x1, y0, 0], [x1, y1, 0], [x0, y1, 0], *np.c_[lab, np.full(4, self.label["pos"][2])]])

    def mesh(self, bsdf, z_floor):
        x0, y0, x1, y1 = self.rect
        rings = []

        def add(grow, z, rect=None, r=None):
            a, b, c, d = rect or self.rect
            rr = min(max(r if r is not None else self.corner + grow, 0.4), (c - a) / 2 + grow - 0.1, (d - b) / 2 + grow - 0.1)
            rings.append(rounded_rect(a - grow, b - grow, c + grow, d + grow, rr, z))
        w, f, t = self.wall, self.fillet, 1.4
        add(-min(x1 - x0, y1 - y0) / 2 + 1, z_floor)
        mid = rings[0][0].copy()
        mid[:, 1] = (y0 + y1) / 2
        rings.insert(0, (mid, rings[0][1]))
        for q in np.linspace(0, math.pi / 2, 6):
            add(-f * (1 - math.sin(q)), z_floor + f * (1 - math.cos(q)))
        g = w * 0.10
        add(g - 0.3, w - 0.8)
        add(g, w - 0.25)
        add(g + 0.4, w)
        add(-0.5, w, self.outer)
        add(0, w - 0.4, self.outer)
        add(0, w - t if self.lip > 3 else z_floor - t, self.outer)
        if self.lip > 3:
            add(g + t, w - t)
            add(t, z_floor - t)
        v, faces = fm.join_rings([p for p, _ in rings])
        uv = np.concatenate([p[:, :2] + u * (p[:, 2:] - z_floor) for p, u in rings])
        size = max(x1 - x0, y1 - y0) + 160
        uv = (uv - [(x0 + x1) / 2, (y0 + y1) / 2]) / size + 0.5
        m = fm.creased(v, faces)
        return mesh_object("tray", m[0], m[1], m[2], bsdf, uv=uv[faces].reshape(-1, 2))


def rag_object(name, center, size, rng):
    n = 70
    y, x = np.mgrid[0:n, 0:n] / (n - 1) * 2 - 1
    wob = (fbm(rng, n, n, 3, 3) - 0.5) * 0.5
    fold = fbm(rng, n, n, 3, 4, 0.6)
    ridge = 1 - np.abs(2 * fbm(rng, n, n, 3, 4, 0.45) - 1) * 2.2  # sharp folds
    z = 1.2 + (18 * np.clip(fold - 0.35, 0, 1) ** 1.3 + 13 * np.clip(ridge, 0, 1) ** 2) * np.clip(1.3 - np.maximum(abs(x), abs(y)) * 0.8, 0, 1)
    v = np.stack([(x * (1 - 0.25 * abs(wob)) + wob * 0.7) * size, (y + wob[::-1] * 0.7) * size * 0.8, z], -1).reshape(-1, 3)
    i = (np.arange(n - 1)[:, None] * n + np.arange(n - 1)).ravel()
    f = np.concatenate([np.stack([i, i + 1, i + n + 1], 1), np.stack([i, i + n + 1, i + n], 1)])
    a = rng.random() * 6.3
    v = v @ fm.rot_z(a).T + [center[0], center[1], 0]
    nn = fm.smooth_normals(v, f, 0)
    weave = fbm(rng, 800, 800, 200, 2)[..., None] * 0.5 + 0.5
    col = np.array([(0.45, 0.03, 0.03), (0.08, 0.15, 0.35), (0.5, 0.48, 0.42)][rng.integers(3)])
    col = (weave * col * (1 - 0.75 * stain_mask(rng, 800, 3)[..., None])).astype(np.float32)
    uv = np.stack([x, y], -1).reshape(-1, 2) * 0.5 + 0.5
    bsdf = mi.load_dict({"type": "twosided", "bsdf": {"type": "diffuse", "reflectance": {"type": "bitmap", "bitmap": mi.Bitmap(col), "raw": True}}})
    return mesh_object(name, v, nn, f, bsdf, uv=uv), v, f


def cable_tie_object(name, center, rng):
    """A cut cable tie: thin curved strap with its head block."""
    s = np.linspace(0, 1, 60)
    ang = rng.random() * 6.3 + np.cumsum(rng.normal(0, 0.01) + rng.uniform(0.03, 0.075) * np.ones(60))
    path = np.cumsum(np.stack([np.cos(ang), np.sin(ang)], 1) * rng.uniform(1.1, 1.8), 0)
    path += np.array(center) - path.mean(0)
    side = np.stack([-np.sin(ang), np.cos(ang)], 1)
    w = np.where(s < 0.07, 2.6, 1.25)
    h = np.where(s < 0.07, 4.2, 1.3)
    rings = [np.array([[*(p + d * ww), z] for d, z in ((u, 0.05), (u, hh), (-u, hh), (-u, 0.05))]) for p, u, ww, hh in zip(path, side, w, h)]
    v, f = fm.join_rings([np.repeat(rings[0].mean(0)[None], 4, 0)] + rings + [np.repeat(rings[-1].mean(0)[None], 4, 0)])
    col = 0.75 if rng.random() < 0.5 else 0.02
    bsdf = mi.load_dict({"type": "twosided", "bsdf": {"type": "principled", "base_color": {"type": "rgb", "value": [col, col, col]}, "roughness": 0.35}})
    m = fm.creased(v, f)
    return mesh_object(name, m[0], m[1], m[2], bsdf), v, f


def lights(kind, rng, cam):
    """Mitsuba emitters for a lighting preset."""
    T = mi.ScalarTransform4f()
    az = rng.random() * 2 * math.pi

    def panel(dist, el, w, h, rgb):
        e = math.radians(el)
        o = [dist * math.cos(e) * math.cos(az), dist * math.cos(e) * math.sin(az), dist * math.sin(e)]
        return {"type": "rectangle", "to_world": T.look_at(origin=o, target=[0, 0, 0], up=[0.01, 0.02, 1]).scale([w / 2, h / 2, 1]),
                "emitter": {"type": "area", "radiance": {"type": "rgb", "value": list(map(float, rgb))}}}
    if kind == "window":
        return {"l1": panel(1600, rng.uniform(35, 70), 1300, 1000, np.array([7, 7.7, 8.6])),
                "env": room_light(rng, 0.8, (1.0, 0.88, 0.72))}
    if kind == "tubes":
        a = panel(1900, rng.uniform(60, 88), 1400, 90, np.array([60, 62, 58]))
        az += math.pi
        return {"l1": a, "l2": panel(2000, rng.uniform(55, 75), 1400, 90, np.array([50, 52, 50])), "env": room_light(rng, 0.9, (0.95, 1.0, 0.98))}
    if kind == "worklamp":
        return {"l1": panel(rng.uniform(500, 800), rng.uniform(35, 65), 110, 70, np.array([300, 270, 215])),
                "env": room_light(rng, 0.5, (1.0, 0.95, 0.85))}
    return {"l1": panel(2200, rng.uniform(45, 75), 260, 260, np.array([26, 20, 12.5])), "env": room_light(rng, 0.35, (0.9, 0.95, 1.1))}  # dim


# ---------------------------------------------------------------- phone picture

def develop(rgb, rng, look):
    """Linear radiance to a phone-like 8-bit picture: exposure, blur, noise, tone, sharpening."""
    h, w = rgb.shape[:2]
    rgb = np.asarray(rgb, np.float32)
    lum = rgb.mean(2)
    gain = 0.35 / math.exp(np.log(lum + 1e-4).mean())
    gain = min(gain, 1.8 / np.percentile(lum, 98.5)) * 2 ** rng.normal(0, 0.2)
    img = rgb * (gain * (1 + rng.normal(0, look["wb"], 3))).astype(np.float32)
    img = img / (img.mean((0, 1)) ** 0.5) * img.mean() ** 0.5  # partial grey-world balance
    if look["motion_px"] > 0.3:
        k = np.zeros((31, 31), np.float32)
        a, half = rng.random() * math.pi, look["motion_px"] / 2
        for s in np.linspace(-half, half, 61):
            x, y = 15 + s * math.cos(a), 15 + s * math.sin(a)
            i, j = int(x), int(y)
            for di, dj in ((0, 0), (0, 1), (1, 0), (1, 1)):
                k[j + dj, i + di] += (1 - abs(x - i - di)) * (1 - abs(y - j - dj))
        img = cv2.filter2D(img, -1, k / k.sum(), borderType=cv2.BORDER_REFLECT)
    img = cv2.GaussianBlur(img, (0, 0), look["blur_px"])
    y, x = np.linspace(-1, 1, h, dtype=np.float32)[:, None], np.linspace(-1, 1, w, dtype=np.float32)
    img = img * (1 - np.float32(look["vignette"]) * (x ** 2 + y ** 2) / 2)[..., None]
    noise = rng.standard_normal(img.shape, dtype=np.float32) * np.sqrt(np.float32(look["shot"]) * img.clip(0) + np.float32(look["read"] ** 2))
    noise = 0.6 * noise + 0.8 * cv2.GaussianBlur(noise, (0, 0), 1.0)
    img = (img + noise).clip(0)
    img = img * (1 + img / 6.0) / (1 + 0.55 * img)  # shoulder
    img = np.where(img < 0.0031, 12.92 * img, 1.055 * cv2.pow(img.clip(1e-6), 1 / 2.4) - 0.055).clip(0, 1.3)
    img = img + np.float32(look["contrast"]) * (img - 0.5) * (1 - (2 * img - 1).clip(-1, 1) ** 2)
    img = img + np.float32(look["sharpen"]) * (img - cv2.GaussianBlur(img, (0, 0), 1.3))
    return (img.clip(0, 1) * 255 + 0.5).astype(np.uint8)
