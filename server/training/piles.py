"""Rigid-body drops of parts onto a floor, stored as poses: `python piles.py OUT.json --n 200 --seed 1` (needs pybullet)."""
import argparse, json, math, tempfile
import numpy as np
import pybullet as pb
import fastener_mesh as fm


def drop(rng):
    """One heap: rows of kind, thread, length, rotation, position; the heap's middle is at the origin."""
    pb.connect(pb.DIRECT)
    pb.setGravity(0, 0, -3000)
    pb.setPhysicsEngineParameter(fixedTimeStep=1 / 480, numSolverIterations=60)
    pb.createMultiBody(0, pb.createCollisionShape(pb.GEOM_PLANE))
    n, parts = int(rng.integers(3, 28)), []
    kinds = rng.choice(["hex_bolt", "socket_screw", "flange_bolt", "hex_nut", "washer"], int(rng.integers(1, 4)))
    for k in range(n):
        kind, thread = str(rng.choice(kinds)), str(rng.choice(["M5", "M6", "M8", "M10"], p=[0.3, 0.35, 0.27, 0.08]))
        d = fm.SIZES[thread]["d"]
        length = int(rng.choice([q for q in (10, 12, 16, 20, 25, 30, 35, 40, 45, 50) if 1.4 * d <= q <= 9 * d])) if kind in fm.BOLTS else 0
        com = np.array([0, 0, -length * 0.3]) if kind in fm.BOLTS else np.array([0, 0, fm.SIZES[thread]["m"] / 2 if kind == "hex_nut" else 0.8])
        with tempfile.NamedTemporaryFile("w", suffix=".obj") as obj:
            base = 1
            for j, piece in enumerate(fm.convex_pieces(kind, thread, length)):
                obj.write(f"o p{j}\n" + "".join("v %.4f %.4f %.4f\n" % tuple(p) for p in piece - com))
                obj.write("".join(f"f {base + i} {base + i + 1} {base + i + 2}\n" for i in range(len(piece) - 2)))
                base += len(piece)
            obj.flush()
            shape = pb.createCollisionShape(pb.GEOM_MESH, fileName=obj.name)
        q = rng.normal(size=4)
        spread = rng.uniform(4, 16)
        body = pb.createMultiBody(1.0, shape, basePosition=[*rng.normal(0, spread, 2), 25 + 14 * k], baseOrientation=(q / np.linalg.norm(q)).tolist())
        pb.changeDynamics(body, -1, lateralFriction=0.6, rollingFriction=0.05, spinningFriction=0.05, restitution=0.0, linearDamping=0.1, angularDamping=0.3)
        parts.append((kind, thread, length, body, com))
    for _ in range(1300 + 40 * n):
        pb.stepSimulation()
    rows = []
    for kind, thread, length, body, com in parts:
        pos, quat = pb.getBasePositionAndOrientation(body)
        rot = np.array(pb.getMatrixFromQuaternion(quat)).reshape(3, 3)
        at = np.array(pos) - rot @ com
        low = (fm.part_mesh(kind, thread, length, True, False)["v"] @ rot.T + at)[:, 2].min()
        at[2] -= min(low, 0.0)
        if math.hypot(at[0], at[1]) < 90:
            rows.append([kind, thread, length, rot.round(5).tolist(), at.round(3).tolist()])
    pb.disconnect()
    return rows


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("out")
    ap.add_argument("--n", type=int, default=200)
    ap.add_argument("--seed", type=int, default=1)
    args = ap.parse_args()
    heaps = [drop(np.random.default_rng([args.seed, k])) for k in range(args.n)]
    with open(args.out, "w") as f:
        json.dump(heaps, f, separators=(",", ":"))


if __name__ == "__main__":
    main()
