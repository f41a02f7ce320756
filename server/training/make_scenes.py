"""Training scenes: path-traced trays with the visible part of every pixel, wider than the development photos.

    SCENE_VARIANT=cuda_ad_rgb python make_scenes.py OUT --seed 1 --workers 16 --seconds 500 --piles piles.json [--mats FOLDER] [--mix lone]

Each file OUT/s<seed>_<index>_<shot>.npz holds `jpg` (the picture's JPEG bytes at NET_MM_PER_PX), `ids` (uint8, 0 = no
part, else row of `parts` + 1) and `parts` (one row a part, columns in COLUMNS). A scene depends on its seed, its index and the mix.
"""
import json, math, os, pickle, tempfile, time
from functools import lru_cache
from pathlib import Path
import numpy as np
from spread import in_processes, parser

NET_MM_PER_PX = 0.36
KINDS = ["hex_bolt", "socket_screw", "flange_bolt", "hex_nut", "washer", "part"]
COLUMNS = ["kind", "cx", "cy", "top_x", "top_y", "under_x", "under_y", "tip_x", "tip_y", "head_px", "shank_px", "visible_px", "standing"]
LENGTHS = [8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70, 80]
SIZE = (1600, 1200)
"""Shape of a picture; its own size follows from the field that it shows, see `picture_size`."""
MIXES = dict(all=[0.06, 0.1, 0.3, 0.13, 0.28, 0.13], lone=[0.05, 0.22, 0.4, 0.08, 0.18, 0.07])
"""Shares of bare, fair, few, apart, touching and pile; of `few` in the mix `lone` half are washers, nuts and discs alone."""
MIX = "all"


def _imports():
    global cv2, shapely, affinity, box, fm, ts, floors, odd, mats, mi, denoise
    import cv2, shapely
    from shapely import affinity
    from shapely.geometry import box
    import fastener_mesh as fm
    import tray_scene as ts
    import floors
    import oddments as odd
    import mats
    import clean
    mi, denoise = ts.mi, clean.denoiser()
    cv2.setNumThreads(1)
    fm.part_mesh = _stored_mesh(fm.part_mesh)


def _stored_mesh(make):
    """Meshes are made once and kept on disk, since every worker needs the same few hundred."""
    folder = Path(os.environ.get("MESH_STORE", Path(tempfile.gettempdir()) / "mesh_store"))
    folder.mkdir(exist_ok=True)

    @lru_cache(maxsize=None)
    def stored(kind, thread, length=0, full=True, fine=True):
        path = folder / f"{kind}_{thread}_{length}_{int(full)}_{int(fine)}.pkl"
        if path.exists():
            return pickle.loads(path.read_bytes())
        mesh = make(kind, thread, length, full, fine)
        part = path.with_suffix(f".{os.getpid()}")
        part.write_bytes(pickle.dumps({k: np.asarray(v, np.int32 if k == "f" else np.float32) for k, v in mesh.items()}))
        part.rename(path)
        return mesh
    return stored


def silhouette(f, xy):
    tri = xy[f]
    e1, e2 = tri[:, 1] - tri[:, 0], tri[:, 2] - tri[:, 0]
    area = e1[:, 0] * e2[:, 1] - e1[:, 1] * e2[:, 0]
    keep = area > 1e-3 if (area > 1e-3).sum() > 2 else area < -1e-3
    poly = shapely.union_all(shapely.buffer(shapely.polygons(tri[keep]), 0.01, quad_segs=1)).buffer(0)
    return max(poly.geoms, key=lambda g: g.area) if poly.geom_type == "MultiPolygon" else poly


class Part:
    """A fastener with its pose; `footprint` is its plan view."""

    def __init__(self, kind, thread, length, rng, standing=False, finish="zinc", full=True):
        self.kind, self.thread, self.length, self.standing, self.finish = kind, thread, length, standing, finish
        self.mesh, self.light = fm.part_mesh(kind, thread, length, full), fm.part_mesh(kind, thread, length, True, False)
        self.rest = fm.rest_rotation(kind, thread, length, standing, rng)
        self.plastic = False
        self.settle(silhouette(self.light["f"], (self.light["v"] @ self.rest.T)[:, :2]))

    @classmethod
    def odd(cls, rng, make=None):
        self = cls.__new__(cls)
        make = make or odd.ODD[rng.integers(len(odd.ODD))]
        d, p = [(4, 0.7), (5, 0.8), (6, 1.0), (8, 1.25), (10, 1.5), (12, 1.75)][rng.choice(6, p=[0.15, 0.25, 0.25, 0.2, 0.1, 0.05])]
        self.mesh, self.rest = make(rng, d, p, float(rng.choice(LENGTHS[:11])))
        self.light, self.kind, self.thread, self.length, self.standing = self.mesh, "part", None, 0, False
        self.plastic = rng.random() < 0.12
        self.finish = str(rng.choice(odd.PLASTICS if self.plastic else odd.METALS))
        self.settle(shapely.convex_hull(shapely.multipoints((self.mesh["v"] @ self.rest.T)[:, :2])))
        return self

    def settle(self, base):
        z = -(self.light["v"] @ self.rest.T)[:, 2].min() + 0.02
        self.base, self.rot, self.pos = base, self.rest, np.array([0, 0, z])
        self.footprint = base

    def lay(self, x, y, yaw):
        self.rot, self.pos = fm.rot_z(yaw) @ self.rest, np.array([x, y, self.pos[2]])
        self.footprint = affinity.translate(affinity.rotate(self.base, yaw, (0, 0), use_radians=True), x, y)

    def world(self, light=False):
        return (self.light if light else self.mesh)["v"] @ self.rot.T + self.pos


def random_parts(rng, n, share_odd, style="wide"):
    fams, plain = [], style != "wide"
    for _ in range(int(rng.integers(1, 3 + (n > 4) + (n > 12)))):
        kind = str(rng.choice(KINDS[:5], p=[0.28, 0.2, 0.18, 0.16, 0.18]))
        thread = str(rng.choice(["M4", "M5", "M6", "M8", "M10", "M12"], p=[0, 0.3, 0.34, 0.25, 0.11, 0] if plain else [0.08, 0.34, 0.28, 0.2, 0.07, 0.03]))
        d = fm.SIZES[thread]["d"]
        most = 70 if n <= 10 else 50 if n <= 20 else 30
        ok = [q for q in LENGTHS if 1.3 * d <= q <= most and q <= 10 * d]
        fams.append((kind, thread, int(rng.choice(ok)) if kind in fm.BOLTS else 0, str(rng.choice(["zinc", "zinc", "black", "stainless", "yellow"]
                     if plain or rng.random() < 0.6 else odd.METALS))))
    out, mixed = [], float(rng.choice([0.12, 0.12, 0.5]))
    for _ in range(n):
        if rng.random() < share_odd:
            out.append(Part.odd(rng))
            continue
        kind, thread, length, finish = fams[rng.integers(len(fams))]
        if rng.random() < mixed:
            kind, thread = str(rng.choice(KINDS[:5])), str(rng.choice(["M5", "M6", "M8"]))
            length = int(rng.choice([12, 16, 20, 25, 30])) if kind in fm.BOLTS else 0
        stand = kind in fm.BOLTS and length <= 4.5 * fm.SIZES[thread]["d"] and rng.random() < 0.17
        full = length <= 2 * fm.SIZES[thread]["d"] + 14 or (length * 7 + ord(thread[1])) % 3 > 0
        out.append(Part(kind, thread, length, rng, stand, finish, full))
    return sorted(out, key=lambda q: -q.base.area)


def flat_parts(rng, n, style):
    """Washers, nuts and discs in plain finishes: what is overlooked most easily where it lies alone."""
    out = []
    for _ in range(n):
        kind = str(rng.choice(["washer", "hex_nut", "disc"], p=[0.55, 0.45, 0] if style == "plain" else [0.45, 0.33, 0.22]))
        if kind == "disc":
            out.append(Part.odd(rng, odd.disc))
            continue
        thread = str(rng.choice(["M4", "M5", "M6", "M8", "M10"], p=[0, 0.45, 0.3, 0.17, 0.08] if style == "plain" else [0.15, 0.4, 0.25, 0.13, 0.07]))
        out.append(Part(kind, thread, 0, rng, finish=str(rng.choice(["zinc", "zinc", "stainless", "stainless", "yellow", "black"]))))
    return out


def fits(part, region, placed, gap):
    return region.contains(part.footprint) and all(part.footprint.distance(q.footprint) >= gap for q in placed)


def slide(part, other, yaw, rng):
    """Bring a part in from outside until it nearly touches another; False when it does not."""
    a = rng.random() * 2 * math.pi
    u = np.array([math.cos(a), math.sin(a)])
    at = np.array(other.footprint.centroid.coords[0]) + 80 * u + rng.normal(0, 6) * np.array([-u[1], u[0]])
    part.lay(*at, yaw)
    for _ in range(40):
        gap = part.footprint.distance(other.footprint)
        if gap < 0.15:
            return True
        at = at - u * max(gap - 0.06, 0.03)
        part.lay(*at, yaw)
    return False


def layout(parts, region, rng, touching):
    placed = []
    x0, y0, x1, y1 = region.bounds
    for part in parts:
        for _ in range(40):
            yaw = rng.random() * 2 * math.pi
            if touching and placed and rng.random() < 0.7:
                other = placed[rng.integers(len(placed))]
                if rng.random() < 0.3 and getattr(other, "yaw", None) is not None:
                    yaw = other.yaw + rng.choice([0, math.pi]) + rng.normal(0, 0.06)  # side by side
                if slide(part, other, yaw, rng) and fits(part, region, placed, 0.03):
                    part.yaw = yaw
                    placed.append(part)
                    break
                continue
            part.lay(rng.uniform(x0, x1), rng.uniform(y0, y1), yaw)
            if fits(part, region, placed, 0.8 if touching else 1.6):
                part.yaw = yaw
                placed.append(part)
                break
    return placed


def pile(rng, region, piles):
    """A stored rigid-body drop, moved to a random place; parts that would leave the floor are left out."""
    rows = piles[rng.integers(len(piles))]
    spot, turn = np.array(region.buffer(-20).representative_point().coords[0]) + rng.normal(0, 8, 2), fm.rot_z(rng.random() * 6.3)
    out = []
    for kind, thread, length, rot, pos in rows:
        part = Part(kind, thread, length, rng, finish=str(rng.choice(["zinc", "zinc", "black", "stainless", "yellow"] if rng.random() < 0.8 else odd.METALS)))
        part.rot = turn @ np.array(rot)
        part.pos = turn @ np.array(pos) + [*spot, 0]
        part.footprint = shapely.convex_hull(shapely.multipoints(part.world(True)[:, :2]))
        part.standing = kind in fm.BOLTS and abs(part.rot[2, 2]) > 0.95
        if region.buffer(2).contains(part.footprint):
            out.append(part)
    return out


def picture_size(dist, rng):
    """Pixels of a picture taken from `dist` mm, so that it shows 0.22 to 0.42 mm a pixel."""
    field = 2.0 * dist * math.tan(math.radians(70) / 2) * 0.8
    width = int(np.clip(field / rng.uniform(0.22, 0.42), 880, 1760)) // 16 * 16
    return width, width * 3 // 4


def make_layout(rng, piles, only=None, style="wide"):
    """Tray, label and parts; the pictures of one layout differ in all else.

    `only` is `bare` (no part), `fair` (no part, nor anything else that lies about: stains, scratches and prints alone),
    `few` (one or two parts, in corners and at edges) or `mixed` (two to forty parts); `style` is then `wide` or `plain`,
    the development photos' own make. Without `only` the style is drawn too, and a share lies on a count mat.
    """
    style = style if only else str(rng.choice(["wide", "plain", "mat"], p=[0.47, 0.39, 0.14]))
    if style == "mat" and mats.sheets():
        return mat_layout(rng)
    dist = rng.uniform(230, 460)
    half = math.tan(math.radians(70) / 2) / math.hypot(*SIZE)
    vw, vh = 2 * dist * half * SIZE[0], 2 * dist * half * SIZE[1]
    code = "".join(rng.choice(list("23456789ABCDEFGHJKLMNPQRSTUVWXYZ"), 5))
    img, paper, corners, payload = ts.label_image("http://lastbolt.local/t/" + code, 25.0 if only else float(rng.choice([25, 25, 25, 18, 35])), "TRAY " + code)
    lip_label = rng.random() < 0.35
    ledge = paper[1] + 5 if lip_label else 0
    wall, lip = rng.uniform(8, 34), rng.choice([1.2, rng.uniform(5, 10)])
    w, h = max(vw * rng.uniform(0.6, 0.9) - 2 * lip, paper[0] + 45), max(vh * rng.uniform(0.6, 0.85) - 2 * lip - ledge, paper[1] + 20)
    sharp = rng.random() < 0.2
    tray = ts.Tray((0, -ledge / 2), w, h, "", wall, lip, 0.6 if sharp else rng.uniform(2, 6), 1.0 if sharp else rng.uniform(5, 20), ledge)
    what = only or str(rng.choice(["bare", "fair", "few", "apart", "touching", "pile"], p=MIXES[MIX]))
    tray.style, tray.stained = style, what == "fair" or what in ("few", "apart") and rng.random() < 0.35
    x0, y0, x1, y1 = tray.interior
    yaw = rng.normal(0, 0.06) * (0.4 if lip_label else 1)
    if lip_label:
        lx, ly, lz = rng.uniform(x0 + paper[0] / 2, x1 - paper[0] / 2), y1 + tray.fillet + wall * 0.1 + ledge / 2 + 0.5, wall + 0.1
    else:
        yaw += rng.choice([0, 0, 0, math.pi / 2, math.pi])
        ex, ey = paper if abs(math.sin(yaw)) < 0.7 else paper[::-1]
        lx, ly, lz = rng.choice([x0 + ex / 2 + 4, x1 - ex / 2 - 4]), rng.choice([y0 + ey / 2 + 4, y1 - ey / 2 - 4]), 0.12
        sheet = ts.place2d(np.array([[-.5, -.5], [.5, -.5], [.5, .5], [-.5, .5]]) * paper, (lx, ly), yaw)
        tray.keepout.append(shapely.Polygon(sheet).buffer(2.5))
    tray.label = dict(img=img, paper=paper, pos=(lx, ly, lz), yaw=yaw, payload=payload, corners=corners, where="lip" if lip_label else "floor")
    region = box(*tray.interior).buffer(-0.5)
    for k in tray.keepout:
        region = region.difference(k)
    most = 0 if what == "fair" else 4 if what == "bare" and not only else 2 if style == "plain" else 3
    tray.lone = what in ("few", "fair")
    tray.flat = MIX == "lone" and not only and what == "few" and rng.random() < 0.5
    waste = what == "few" and rng.random() < 0.3
    extras, region = place_extras(rng, region, 2 if waste else most, waste or style == "plain")
    share_odd = float(rng.choice([0, 0, 0, 0, 0.3, 0.9])) if style == "wide" else 0.0
    most = int(rng.choice([8, 16, 28, 42], p=[0.3, 0.33, 0.25, 0.12]))
    if what == "mixed":
        what, share_odd = str(rng.choice(["apart", "touching", "touching"])), 0.0
    if what in ("bare", "fair"):
        tray.parts = []
    elif tray.flat:
        tray.parts = layout(flat_parts(rng, int(rng.integers(1, 4)), style), rim(region, rng), rng, False)
    elif what == "few":
        tray.parts = layout(random_parts(rng, int(rng.integers(1, 3)), 0.0 if only else share_odd, style), rim(region, rng), rng, False)
    elif what == "pile":
        tray.parts = pile(rng, region, piles)
    else:
        tray.parts = layout(random_parts(rng, int(rng.integers(2, most)), share_odd, style), region, rng, what == "touching")
    return tray, extras, dist


def mat_layout(rng):
    """Parts on a printed count mat that lies on a bench."""
    tray, (w, h) = mats.tray(rng)
    tray.style, tray.stained, tray.lone, tray.flat = "plain", False, False, False
    half = math.tan(math.radians(70) / 2) / math.hypot(*SIZE)
    near = rng.uniform(1.08, 1.4)
    dist = max(w * near / (2 * half * SIZE[0]), h * near / (2 * half * SIZE[1]))
    region = box(*tray.interior)
    most = int(rng.choice([4, 16, 28, 42], p=[0.3, 0.3, 0.25, 0.15]))
    extras, region = place_extras(rng, region, 2, True) if rng.random() < 0.3 else ([], region)
    tray.parts = layout(random_parts(rng, int(rng.integers(0, most)), 0.0, "plain"), region, rng, rng.random() < 0.4)
    return tray, extras, dist


def rim(region, rng):
    """Half of the time only the floor's margin, where a part is overlooked most easily."""
    inner = region.buffer(-22)
    return region.difference(inner) if rng.random() < 0.5 and not inner.is_empty else region


def place_extras(rng, region, most=3, small=False):
    """Things that are no parts: none to `most`; where `small`, rags and cable ties and bits of waste alone."""
    extras = []
    number = int(rng.choice([0, 1, 2, 3], p=[0.38, 0.34, 0.2, 0.08])) if most == 3 else int(rng.integers(0, most + 1))
    for _ in range(number):
        x0, y0, x1, y1 = region.bounds
        c = (rng.uniform(x0, x1), rng.uniform(y0, y1))
        r = rng.random()
        if r < 0.25:
            obj = ("rag", c, rng.uniform(20, 62), int(rng.integers(2 ** 30)))
            v = ts.rag_object("x", c, obj[2], np.random.default_rng(obj[3]))[1]
        elif r < 0.55:
            obj = ("tie", c, 0, int(rng.integers(2 ** 30)))
            v = ts.cable_tie_object("x", c, np.random.default_rng(obj[3]))[1]
        else:
            seed = int(rng.integers(2 ** 30))
            obj = ("bit" if small else "thing", c, rng.random() * 6.3, seed)
            v = thing_mesh(obj)[0]
        foot = shapely.convex_hull(shapely.multipoints(v[:, :2])).buffer(1.0)
        if region.contains(foot) or rng.random() < 0.25:
            extras.append(obj)
            region = region.difference(foot)
            if region.geom_type != "Polygon":
                region = max(region.geoms, key=lambda g: g.area)
    return extras, region


def thing_mesh(obj):
    rng = np.random.default_rng(obj[3])
    things = odd.BITS if obj[0] == "bit" else odd.NO_PARTS
    m, bsdf = things[rng.integers(len(things))](rng)
    rot = fm.rot_z(obj[2])
    v = m["v"] @ rot.T
    v = v + [obj[1][0], obj[1][1], -v[:, 2].min() + 0.05]
    return v, m["n"] @ rot.T, m["f"], bsdf


def choose_look(rng):
    hard = rng.random() < 0.25
    look = dict(blur_px=rng.uniform(0.3, 0.7), motion_px=0.0, vignette=rng.uniform(0.05, 0.35), wb=rng.choice([0.025, 0.08]),
                contrast=rng.uniform(0.0, 0.3), shot=rng.uniform(2e-5, 2.2e-4), read=rng.uniform(0.0008, 0.003), sharpen=rng.uniform(0.2, 1.2))
    if rng.random() < 0.3 or hard:
        look["motion_px"] = float(rng.uniform(0.5, 2.0 if hard else 1.1))
    if hard:
        look.update(shot=float(rng.uniform(2e-4, 6e-4)), read=float(rng.uniform(0.003, 0.006)), blur_px=float(rng.uniform(0.5, 1.0)))
    return look, hard


def trace(sc, seed, spp, clean):
    """Radiance, height x width x 3; denoised where `clean`."""
    out = [np.array(mi.render(sc, spp=n, seed=seed + 7 * k), np.float32) for k, n in enumerate([16] * (spp // 16) + [spp % 16]) if n]
    shares = [n for n in [16] * (spp // 16) + [spp % 16] if n]
    out = sum(o * (n / spp) for o, n in zip(out, shares))
    rgb = np.nan_to_num(out[..., :3])
    rgb = np.minimum(rgb, np.percentile(rgb[::4, ::4], 99.7) * 6)
    return denoise(rgb, out[..., -6:-3].clip(0, 1), out[..., -3:]) if clean else rgb


def shoot(tray, extras, dist, rng, size, spp, whole=False):
    """One picture of a layout: camera, light, surfaces and finishes are drawn anew.

    `whole` steps back until the floor and the label are in the picture, and never leaves the label out.
    """
    tilt, az = math.radians(abs(rng.normal(0, 15)) % 40), math.radians(rng.normal(0, 60))
    cx, cy = np.array(tray.rect).reshape(2, 2).mean(0)
    aim = np.array([cx + rng.normal(0, 12), cy + rng.normal(0, 12), 0])
    d = dist * rng.uniform(0.95, 1.2)
    pos = aim + d * np.array([math.sin(tilt) * math.sin(az), -math.sin(tilt) * math.cos(az), math.cos(tilt)])
    cam = ts.Camera(pos, aim, math.radians(rng.normal(0, 8)), size, rng.uniform(64, 76))
    while whole:
        uv = cam.project(tray.must_see())
        if (uv > 10).all() and (uv < np.array(size) - 11).all():
            break
        d *= 1.02
        cam = ts.Camera(aim + d * (pos - aim) / np.linalg.norm(pos - aim), aim, 0.0, size, 70.0)
    look, hard = choose_look(rng)
    light = str(rng.choice(["dim", "worklamp"] if hard else ["window", "tubes", "worklamp", "dim"], p=None if hard else [0.4, 0.3, 0.2, 0.1]))
    T, scene = mi.ScalarTransform4f(), {"type": "scene"}
    scene.update(ts.lights(light, rng, cam))
    if rng.random() < 0.15:
        more = ts.lights("worklamp", rng, cam)
        scene["l3"] = more["l1"]
    plain, mat = tray.style == "plain", tray.floor == "mat"
    wide = rng.random() < (0.0 if plain else 0.6)
    kind = str(rng.choice((floors.BUSY if tray.lone and rng.random() < 0.5 else floors.WIDE) if wide else floors.PLAIN))
    if tray.flat and rng.random() < 0.65:
        kind = "steel" if plain or rng.random() < 0.5 else "bare_metal"
    share = (0.5 if plain else 0.85) if tray.stained else 0.1 if plain else 0.35
    marks = floors.marks if rng.random() < share else None
    oil = int(rng.integers(1, 4)) if rng.random() < (0.6 if tray.stained else 0.3) else 0
    bench = str(rng.choice(floors.BENCHES[:4] if plain or rng.random() < 0.55 else floors.BENCHES))
    bare = rng.random() < 0.1 and not (whole or plain)
    floor = None if mat else ts.surface(kind, rng, oil=oil, extra=marks)
    low = -0.15 if mat else -0.05 if bare else -1.8
    scene["bench"] = {"type": "rectangle", "to_world": T.translate([0, 0, low]).scale([1200, 1200, 1]),
                      "bsdf": ts.surface(kind if bare else bench, rng, repeat=3, n=768, extra=marks if bare else None)}
    if rng.random() < 0.7:
        back = cam.pos - 14 * cam.R[2]
        scene["phone"] = {"type": "rectangle", "to_world": T.look_at(origin=list(back), target=list(back + cam.R[2]), up=list(cam.R[1])).scale([78, 38, 1]),
                          "bsdf": {"type": "twosided", "bsdf": {"type": "diffuse", "reflectance": {"type": "rgb", "value": 0.03}}}}
    x0, y0, x1, y1 = tray.interior
    if mat:
        pass
    elif not bare:
        sheet = kind in ("paper", "printed", "cloth") or rng.random() < 0.1
        body = str(rng.choice(["steel", "black_plastic", "blue_plastic", "paint"])) if sheet else None
        scene["tray"] = tray.mesh(mi.load_dict(ts.surface(body, rng) if sheet else floor), -0.2 if sheet else 0.0)
        if sheet:
            scene["paper"] = {"type": "rectangle", "bsdf": floor, "to_world": T.translate([(x0 + x1) / 2, (y0 + y1) / 2, 0]).scale([(x1 - x0) / 2 - 1, (y1 - y0) / 2 - 1, 1])}
    elif rng.random() < 0.5:
        scene["paper"] = {"type": "rectangle", "bsdf": floor, "to_world": T.translate([(x0 + x1) / 2, (y0 + y1) / 2, 0]).scale([(x1 - x0) / 2 + 4, (y1 - y0) / 2 + 4, 1])}
    if mat or not (bare and tray.ledge) and (whole or rng.random() < 0.9):
        lab = tray.label
        scene["label"] = ts.sheet_shape(lab["img"], lab["paper"], lab["pos"], lab["yaw"], rng)
    principled = {"type": "principled", "base_color": {"type": "mesh_attribute", "name": "vertex_color"}, "roughness": {"type": "mesh_attribute", "name": "vertex_rough"}}
    metal, oxide = mi.load_dict({**principled, "metallic": 1.0, "specular": 0.5}), mi.load_dict({**principled, "metallic": 0.55, "specular": 0.6})
    nylon, dirt = mi.load_dict({**principled, "metallic": 0.0, "specular": 0.5}), float(np.clip(rng.normal(0.4, 0.4), 0, 1.3))
    refinish = rng.random() < 0.6 and not plain
    change, alike = dict(zip(odd.METALS, rng.permutation(odd.METALS))), odd.ALIKE.get(kind) if rng.random() < 0.45 else None
    for k, part in enumerate(tray.parts):
        kept = part.finish
        if alike and not plain and not part.plastic:
            part.finish = str(rng.choice(alike))  # hard to tell from the floor
        elif refinish and not part.plastic:
            part.finish = str(change[part.finish]) if rng.random() < 0.5 else str(rng.choice(["zinc", "black", "stainless", "yellow"]))
        bsdf = nylon if part.plastic else oxide if part.finish in ("black", "phosphate", "rust", "dull") else metal
        scene[f"part_{k}"] = ts.part_object(f"part_{k}", part, bsdf, rng, dirt)
        part.finish = kept
    for k, obj in enumerate(extras):
        own = np.random.default_rng(obj[3])
        if obj[0] == "rag":
            scene[f"extra{k}"] = ts.rag_object(f"extra{k}", obj[1], obj[2], own)[0]
        elif obj[0] == "tie":
            scene[f"extra{k}"] = ts.cable_tie_object(f"extra{k}", obj[1], own)[0]
        else:
            v, n, f, bsdf = thing_mesh(obj)
            scene[f"extra{k}"] = ts.mesh_object(f"extra{k}", v, n, f, bsdf)
    scene["sensor"] = cam.to_mitsuba(spp)
    clean = denoise is not None and (whole or plain or rng.random() < 0.75)
    inner = {"type": "path", "max_depth": 6, "rr_depth": 4}
    scene["integrator"] = {"type": "aov", "aovs": "al:albedo,nn:sh_normal", "img": inner} if clean else inner
    sc = mi.load_dict(scene)
    seed = int(rng.integers(2 ** 30))
    rgb = trace(sc, seed, int(rng.choice([8, 12, 16])) if clean else spp, clean)
    index = np.array(mi.render(sc, spp=1, seed=seed + 1, integrator=mi.load_dict({"type": "aov", "aovs": "i:shape_index"})))[..., -1].round().astype(int)
    numbers = [ts.shape_number(sc, f"part_{k}") for k in range(len(tray.parts))]
    return ts.develop(rgb, rng, look), index, numbers, cam, dict(look, hard=hard, light=light, floor="mat" if mat else kind)


def record(tray, pic, index, numbers, cam, rng):
    """The training file's three arrays, at the network's scale."""
    middle = np.array([[*np.array(tray.rect).reshape(2, 2).mean(0), 0.0]])
    scale = float((middle @ cam.R.T + cam.t)[0, 2] / cam.K[0, 0]) / NET_MM_PER_PX * math.exp(rng.normal(0, 0.03))
    size = cam.size
    w, h = round(size[0] * scale), round(size[1] * scale)
    rough = cv2.imdecode(cv2.imencode(".jpg", pic[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(60, 96))])[1], cv2.IMREAD_COLOR)
    small = cv2.resize(rough, (w, h), interpolation=cv2.INTER_AREA if scale < 1 else cv2.INTER_LINEAR)
    table = np.zeros(int(max([index.max(), *numbers])) + 1, np.uint8)
    for k, number in enumerate(numbers):
        table[number] = k + 1
    ids = cv2.resize(table[index.clip(0)], (w, h), interpolation=cv2.INTER_NEAREST)
    seen = np.bincount(ids.ravel(), minlength=len(numbers) + 1)
    to_net = lambda p: (cam.project(p) + 0.5) * [w / size[0], h / size[1]] - 0.5
    rows = []
    for k, part in enumerate(tray.parts):
        mesh = part.mesh["v"]
        if part.kind in fm.BOLTS:
            ends = np.array([[0, 0, mesh[:, 2].max()], [0, 0, 0], [0, 0, mesh[:, 2].min()]])
            mid = ends[[0, 2]].mean(0)
        else:
            mid = (mesh.max(0) + mesh.min(0)) / 2
            ends = np.full((3, 3), np.nan)
        ends, mid = ends @ part.rot.T + part.pos, mid @ part.rot.T + part.pos
        unit = cam.K[0, 0] * w / size[0] / float((cam.R @ mid + cam.t)[2])
        head, shank = np.nan, np.nan
        if part.kind != "part":
            s = fm.SIZES[part.thread]
            head = {"socket_screw": s["sd"], "washer": s["washer"][1]}.get(part.kind, s["af"])
            shank = s["d"]
        rows.append([KINDS.index(part.kind), *to_net(mid[None])[0], *to_net(ends).ravel(), head * unit, shank * unit, seen[k + 1], part.standing])
    jpg = cv2.imencode(".jpg", small, [cv2.IMWRITE_JPEG_QUALITY, 93])[1]
    return dict(jpg=jpg, ids=ids, parts=np.array(rows, np.float32).reshape(-1, len(COLUMNS)))


def work(job):
    global MIX
    out, seed, start, step, until, piles, shots, spp, sheets, MIX = job
    _imports()
    mats.FOLDER = sheets
    index = start
    while time.time() < until:
        rng = np.random.default_rng([seed, index])
        try:
            tray, extras, dist = make_layout(rng, piles)
            for shot in range(shots):
                own = np.random.default_rng([seed, index, shot])
                pic, ids, numbers, cam, _ = shoot(tray, extras, dist, own, picture_size(dist, own), spp)
                part = Path(out) / f".s{seed}_{index}_{shot}.npz"
                np.savez_compressed(part, **record(tray, pic, ids, numbers, cam, own))
                part.rename(Path(out) / part.name[1:])
        except Exception as trouble:  # one odd scene must not stop a long run; it is named and left out
            print("scene", seed, index, repr(trouble)[:300], flush=True)
        index += step


def main():
    ap = parser(__doc__, 1)
    ap.add_argument("--seconds", type=float, default=60)
    ap.add_argument("--piles", type=Path, required=True)
    ap.add_argument("--mats", type=Path, help="folder with mat-a4.png, mat-a5.png or mat-letter.png, each the whole printed sheet")
    ap.add_argument("--mix", choices=MIXES, default=MIX)
    ap.add_argument("--shots", type=int, default=3)
    ap.add_argument("--spp", type=int, default=48)
    args = ap.parse_args()
    args.out.mkdir(parents=True, exist_ok=True)
    piles = json.loads(args.piles.read_text())
    until = time.time() + args.seconds
    jobs = [(str(args.out), args.seed, k, args.workers, until, piles, args.shots, args.spp, args.mats, args.mix) for k in range(args.workers)]
    in_processes(work, jobs)


if __name__ == "__main__":
    main()
