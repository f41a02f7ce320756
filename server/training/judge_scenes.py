"""Scenes to judge with, never trained on: whole trays at 1600 x 1200 with the widened floors, marks and oddments.

    SCENE_VARIANT=cuda_ad_rgb python judge_scenes.py OUT --only few --n 200 --seed 9001 --workers 16 --piles piles.json

Writes NAME.jpg and NAME.json with the fields of the development photos that `tests/bench/vision_bars.py` reads.
"""
import json, math, time
from pathlib import Path
import numpy as np
import make_scenes as ms
from spread import in_processes, parser


def truth(tray, cam, index, numbers, look, only):
    """What the picture holds, in the form of the development photos."""
    fm, parts = ms.fm, []
    for k, part in enumerate(tray.parts):
        uv = cam.project(part.world(True))
        hull = ms.shapely.convex_hull(ms.shapely.multipoints(uv))
        area = ms.silhouette(part.light["f"], uv * [1, -1]).area
        row = dict(id=k, kind=part.kind, thread=part.thread, standing=bool(part.standing), finish=part.finish, touching=False,
                   bbox_px=np.round(hull.bounds, 2).tolist(), visible_fraction=round(min(1.0, float((index == numbers[k]).sum()) / max(1.0, area)), 3))
        if part.kind != "part":
            row.update(fm.part_info(part.kind, part.thread, part.length))
        if part.kind in fm.BOLTS:
            ends = np.array([[0, 0, part.mesh["v"][:, 2].max()], [0, 0, 0], [0, 0, part.mesh["v"][:, 2].min()]]) @ part.rot.T + part.pos
            row["axis_px"] = dict(zip(("head_top", "under_head", "tip"), np.round(cam.project(ends), 2).tolist()))
        parts.append(row)
    lab = tray.label
    flat = ms.ts.place2d(lab["corners"], lab["pos"], lab["yaw"])
    corners = cam.project(np.c_[flat, np.full(4, lab["pos"][2])])
    label = dict(payload=lab["payload"], where=lab["where"], symbol_mm=25.0, symbol_corners_px=np.round(corners, 2).tolist(), height_above_floor_mm=lab["pos"][2])
    scene = dict(mode=only, hard=bool(look["hard"]), light=look["light"], floor=look["floor"])
    camera = dict(K=cam.K.tolist(), R=cam.R.tolist(), t_mm=cam.t.tolist())
    return dict(count=len(parts), labels=[label], parts=parts, scene=scene, camera=camera)


def work(job):
    out, only, style, numbers, seed, piles = job
    ms._imports()
    for index in numbers:
        rng, began = np.random.default_rng([seed, index]), time.time()
        tray, extras, dist = ms.make_layout(rng, piles, only, style)
        pic, ids, shapes, cam, look = ms.shoot(tray, extras, dist, rng, (1600, 1200), 48, whole=True)
        stem = Path(out) / f"{only}_{seed}_{index:03d}"
        info = truth(tray, cam, ids, shapes, look, only)
        ms.cv2.imwrite(f"{stem}.jpg", pic[..., ::-1], [ms.cv2.IMWRITE_JPEG_QUALITY, 85])
        stem.with_suffix(".json").write_text(json.dumps(info, separators=(",", ":")) + "\n")
        print(f"{stem.name} parts={info['count']} {time.time() - began:.1f}s", flush=True)


def main():
    ap = parser(__doc__, 9001)
    ap.add_argument("--only", choices=["few", "bare", "fair", "mixed", "pile"], required=True)
    ap.add_argument("--style", choices=["wide", "plain"], default="wide")
    ap.add_argument("--n", type=int, default=20)
    ap.add_argument("--piles", type=Path, required=True)
    args = ap.parse_args()
    args.out.mkdir(parents=True, exist_ok=True)
    piles = json.loads(args.piles.read_text())
    jobs = [(str(args.out), args.only, args.style, range(k, args.n, args.workers), args.seed, piles) for k in range(args.workers)]
    in_processes(work, jobs)


if __name__ == "__main__":
    main()
