"""Trains the part reader on a folder of scenes that may still be growing: `python train.py SCENES OUT --seconds 500`.

Everything lives on one GPU: pictures as bytes, crops turned, scaled, lit and blurred there. Seeds are fixed, but a
folder that grows while training goes on makes a run not repeatable to the last bit; a finished folder does, up to
the GPU's own order of additions.
"""
import argparse, math, threading, time
from pathlib import Path
import cv2, numpy as np, torch
import torch.nn.functional as F
import network

CROP, CELL, MOST = 512, 256, 56
UNIT = network.OFFSET_UNIT


class Store:
    """Scenes on the GPU; a thread adds new files as they appear."""

    def __init__(self, folder):
        self.folder, self.seen, self.items, self.stop = Path(folder), set(), [], False
        threading.Thread(target=self.watch, daemon=True).start()

    def watch(self):
        while not self.stop:
            for path in sorted(self.folder.glob("s*.npz")):
                if path.name not in self.seen:
                    self.seen.add(path.name)
                    try:
                        self.items.append(self.load(path))
                    except (OSError, ValueError, KeyError) as trouble:
                        print("left out", path.name, trouble, flush=True)
            time.sleep(1.0)

    def load(self, path):
        d = np.load(path)
        rgb = cv2.imdecode(d["jpg"], cv2.IMREAD_COLOR)[..., ::-1].copy()
        parts = np.full((MOST, d["parts"].shape[1]), np.nan, np.float32)
        rows = d["parts"][:MOST]
        parts[:len(rows)] = rows
        return (torch.from_numpy(rgb).permute(2, 0, 1).contiguous().cuda(), torch.from_numpy(d["ids"]).cuda(), torch.from_numpy(parts).cuda())


def crop_matrix(rng, rgb, parts):
    """2 x 3 matrix from crop pixels to picture pixels; looks at parts more often than at bare floor."""
    h, w = rgb.shape[1:]
    angle, size = rng.uniform(0, 2 * math.pi) if rng.random() < 0.7 else rng.normal(0, 0.1), math.exp(rng.normal(-0.02, 0.2))
    flip = -1 if rng.random() < 0.5 else 1
    rows = parts[:, 1:3]
    n = int(np.isfinite(rows[:, 0]).sum())
    if n and rng.random() < 0.75:
        at = rows[rng.integers(n)] + rng.normal(0, 90, 2)
    else:
        at = np.array([rng.uniform(0, w), rng.uniform(0, h)])
    c, s = math.cos(angle) * size, math.sin(angle) * size
    m = np.array([[c * flip, -s], [s * flip, c]])
    return np.c_[m, at - m @ np.array([CROP / 2 - 0.5] * 2)]


def batch(store, rng, size, cpu_parts):
    """Crops, ids and part rows in crop pixels."""
    base = torch.stack(torch.meshgrid(torch.arange(CROP, device="cuda"), torch.arange(CROP, device="cuda"), indexing="xy"), -1).float()
    xs, idss, rowss = [], [], []
    for _ in range(size):
        rgb, ids, parts = store.items[rng.integers(len(store.items))]
        key = id(parts)
        if key not in cpu_parts:
            cpu_parts[key] = parts.cpu().numpy()
        m = crop_matrix(rng, rgb, cpu_parts[key])
        mt = torch.tensor(m, dtype=torch.float32, device="cuda")
        at = base @ mt[:, :2].T + mt[:, 2]
        h, w = ids.shape
        grid = ((at + 0.5) / torch.tensor([w, h], device="cuda") * 2 - 1)[None]
        xs.append(F.grid_sample(rgb[None].float(), grid, mode="bilinear", padding_mode="reflection", align_corners=False))
        inside = (grid.abs() <= 1).all(-1)
        idss.append(torch.where(inside, F.grid_sample(ids[None, None].float(), grid, mode="nearest", align_corners=False)[:, 0], torch.zeros_like(at[None, ..., 0])))
        inv = torch.tensor(np.linalg.inv(m[:, :2]), dtype=torch.float32, device="cuda")
        rows = parts.clone()
        for a in (1, 3, 5, 7):
            rows[:, a:a + 2] = (parts[:, a:a + 2] - mt[:, 2]) @ inv.T
        rows[:, 9:11] = parts[:, 9:11] / math.sqrt(abs(np.linalg.det(m[:, :2])))
        rowss.append(rows)
    return torch.cat(xs), torch.cat(idss).long(), torch.stack(rowss)


def light(x, g):
    """Colours, lamps, shadows, blur and noise; x in 0..255, result too."""
    n = x.shape[0]
    r = lambda *s: torch.rand(*s, device="cuda", generator=g)
    z = lambda *s: torch.randn(*s, device="cuda", generator=g)
    some = lambda p: (r(n, 1, 1, 1) < p).float()
    x = (x / 255).clamp(1e-4, 1)
    mix = torch.eye(3, device="cuda") + 0.10 * z(n, 3, 3) * some(0.5)[:, 0]
    x = torch.einsum("nij,njhw->nihw", mix, x).clamp(1e-4, 4)
    grey = x.mean(1, keepdim=True)
    dull = some(0.1)
    x = x * (1 - dull) + grey * dull
    x = x ** torch.exp(0.22 * z(n, 1, 1, 1)) * torch.exp(0.12 * z(n, 3, 1, 1) * some(0.5) + 0.28 * z(n, 1, 1, 1))
    field = F.interpolate(z(n, 1, 4, 4), size=x.shape[2:], mode="bicubic", align_corners=False)
    x = x * torch.exp(0.3 * field * some(0.4))
    edge = F.interpolate(z(n, 1, 7, 7), size=x.shape[2:], mode="bicubic", align_corners=False)
    soft = torch.exp(3 * r(n, 1, 1, 1))
    x = x * (1 - torch.sigmoid((edge - 0.6) * 4 * soft) * (0.2 + 0.6 * r(n, 1, 1, 1)) * some(0.25))
    x = x + torch.sigmoid((edge.flip(2) - 1.6) * 3 * soft) * r(n, 1, 1, 1) * some(0.12)
    y, xx = torch.meshgrid(torch.arange(-4, 5, device="cuda"), torch.arange(-4, 5, device="cuda"), indexing="ij")
    sig = 0.3 + 1.3 * r(n, 1, 1) ** 2
    k = torch.exp(-(y ** 2 + xx ** 2) / (2 * sig ** 2))
    long = torch.exp(-((y * torch.cos(6.3 * sig) + xx * torch.sin(6.3 * sig)) ** 2) / 0.5 - (y ** 2 + xx ** 2) / 6)
    k = torch.where(r(n, 1, 1) < 0.12, long, k)
    k = (k / k.sum((1, 2), keepdim=True)).repeat_interleave(3, 0)[:, None]
    blurred = F.conv2d(x.reshape(1, -1, *x.shape[2:]), k, padding=4, groups=3 * n).reshape(x.shape)
    pick = some(0.55)
    x = blurred * pick + x * (1 - pick)
    fuzzy = F.avg_pool2d(z(*x.shape), 3, 1, 1) * 2
    x = x + (0.05 * r(n, 1, 1, 1) ** 2) * (z(*x.shape) * 0.6 + fuzzy * 0.7)
    sharp = x - F.avg_pool2d(x, 3, 1, 1)
    x = x + sharp * 1.2 * r(n, 1, 1, 1) * some(0.3)
    return (x.clamp(0, 1) * 255).round()


def targets(ids, rows):
    """Everything that the loss compares with, at one cell for two pixels."""
    b = ids.shape[0]
    small = ids[:, ::2, ::2]
    mask = F.avg_pool2d((ids > 0).float()[:, None], 2)
    count = torch.zeros(b, MOST + 1, device="cuda").scatter_add_(1, small.flatten(1).clamp(max=MOST), torch.ones_like(small, dtype=torch.float32).flatten(1))
    usable = (rows[..., 11] >= 24) & (count[:, 1:] > 4)
    at = (small - 1).clamp(0, MOST - 1)
    rows0 = torch.nan_to_num(rows)
    pixel = torch.gather(rows0, 1, at.flatten(1)[..., None].expand(-1, -1, rows.shape[2])).view(b, CELL, CELL, -1)
    known = torch.gather(torch.isfinite(rows).float(), 1, at.flatten(1)[..., None].expand(-1, -1, rows.shape[2])).view(b, CELL, CELL, -1)
    good = torch.gather(usable.float(), 1, at.flatten(1)).view(b, CELL, CELL) * (small > 0)
    area = torch.gather(count[:, 1:], 1, at.flatten(1)).view(b, CELL, CELL).clamp(min=10)
    weight = good * (150 / area).sqrt().clamp(0.3, 3)
    ignore = ((small > 0) & (good == 0)).float()[:, None]
    line = torch.arange(CELL, device="cuda") * 2 + 0.5
    cx = torch.where(usable, rows0[..., 1], torch.full_like(rows0[..., 1], -1e4))
    dx = torch.exp(-((line[None, None] - cx[..., None]) / 4.0) ** 2 / 2)
    dy = torch.exp(-((line[None, None] - rows0[..., 2][..., None]) / 4.0) ** 2 / 2)
    heat = torch.stack([(dy[k][:, :, None] * dx[k][:, None, :]).amax(0) for k in range(b)])[:, None]
    s = small.float()[:, None]
    big, low = F.max_pool2d(s, 3, 1, 1), -F.max_pool2d(-torch.where(s > 0, s, torch.full_like(s, 99)), 3, 1, 1)
    seam = ((big != low) & (low < 99) & (s > 0)).float()
    grid = torch.stack(torch.meshgrid(line, line, indexing="xy"), -1)
    return dict(mask=mask, heat=heat, seam=seam, weight=weight, ignore=ignore, pixel=pixel, known=known, grid=grid)


def loss_of(out, t):
    ch = {k: out[:, a:b].float() for k, (a, b) in network.CHANNELS.items()}
    use = 1 - t["ignore"]
    bce = F.binary_cross_entropy_with_logits(ch["mask"], t["mask"], reduction="none") * use * (1 + 2 * t["mask"])
    p = torch.sigmoid(ch["mask"]) * use
    dice = 1 - (2 * (p * t["mask"]).sum((1, 2, 3)) + 20) / (p.sum((1, 2, 3)) + (t["mask"] * use).sum((1, 2, 3)) + 20)
    losses = dict(mask=bce.mean() * 2 + 0.5 * dice.mean())
    ph, th = torch.sigmoid(ch["heat"]).clamp(1e-4, 1 - 1e-4), t["heat"]
    peak = (th > 0.93).float()
    focal = -(peak * (1 - ph) ** 2 * ph.log() + (1 - peak) * (1 - th) ** 4 * ph ** 2 * (1 - ph).log()) * use
    losses["heat"] = focal.sum() / (peak.sum() + 20) * 0.5
    losses["seam"] = (F.binary_cross_entropy_with_logits(ch["seam"], t["seam"], reduction="none") * use * (1 + 3 * t["seam"])).mean()
    w, total = t["weight"], t["weight"].sum() + 50

    def vector(name, a, scale):
        want = (t["pixel"][..., a:a + 2] - t["grid"]) / UNIT
        gone = (want - ch[name].permute(0, 2, 3, 1)).abs()
        gone = torch.where(gone < 0.1, gone ** 2 * 5, gone - 0.05).sum(-1)
        ww = w * t["known"][..., a]
        losses[name] = scale * (gone * ww).sum() / (ww.sum() + 50)
    vector("centre", 1, 1.0)
    vector("under", 5, 0.7)
    vector("tip", 7, 0.7)
    for name, a in (("head", 9), ("shank", 10)):
        ww = w * t["known"][..., a]
        losses[name] = 0.7 * ((t["pixel"][..., a] / UNIT - ch[name][:, 0]).abs() * ww).sum() / (ww.sum() + 50)
    kind = F.cross_entropy(ch["kind"], t["pixel"][..., 0].long(), reduction="none")
    losses["kind"] = 0.4 * (kind * w).sum() / total
    bolt = (t["pixel"][..., 0] < 3).float() * w
    losses["stand"] = 0.2 * (F.binary_cross_entropy_with_logits(ch["stand"][:, 0], t["pixel"][..., 12], reduction="none") * bolt).sum() / (bolt.sum() + 50)
    return losses


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("scenes")
    ap.add_argument("out", type=Path)
    ap.add_argument("--seconds", type=float, default=500)
    ap.add_argument("--first", type=int, default=150, help="scenes to wait for")
    ap.add_argument("--start", type=Path, help="weights (.npz) to go on from")
    ap.add_argument("--lr", type=float, default=2.5e-3)
    ap.add_argument("--batch", type=int, default=32)
    ap.add_argument("--seed", type=int, default=1)
    args = ap.parse_args()
    torch.manual_seed(args.seed)
    torch.backends.cudnn.benchmark = True
    rng, g = np.random.default_rng(args.seed), torch.Generator("cuda").manual_seed(args.seed)
    model = network.torch_module().cuda().to(memory_format=torch.channels_last)
    if args.start:
        model.load_state_dict({k: torch.from_numpy(v) for k, v in np.load(args.start).items()})
    mean = {k: v.detach().clone().float() for k, v in model.state_dict().items()}
    opt = torch.optim.AdamW(model.parameters(), lr=args.lr, weight_decay=0.02)
    begin, store, cpu_parts, step, sums = time.time(), Store(args.scenes), {}, 0, {}
    while len(store.items) < args.first:
        time.sleep(0.5)
    print(f"start after {time.time() - begin:.0f} s with {len(store.items)} scenes", flush=True)
    until = begin + args.seconds
    t0 = last = time.time()
    while time.time() < until:
        done = (time.time() - t0) / (until - t0)
        lr = args.lr * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, done))) + 1e-6
        for group in opt.param_groups:
            group["lr"] = lr
        with torch.no_grad():
            x, ids, rows = batch(store, rng, args.batch, cpu_parts)
            x = (light(x, g) - 127.5) / 64
            t = targets(ids, rows)
        with torch.autocast("cuda", torch.bfloat16):
            out = model(x.contiguous(memory_format=torch.channels_last))
        losses = loss_of(out, t)
        loss = sum(losses.values())
        opt.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(model.parameters(), 5.0)
        opt.step()
        step += 1
        if step % 5 == 0:
            keep = min(0.995, step / (step + 100))
            with torch.no_grad():
                for k, v in model.state_dict().items():
                    mean[k].lerp_(v.float(), 1 - keep)
        for k, v in losses.items():
            sums[k] = sums.get(k, 0) + v.detach()
        if time.time() - last > 20:
            print(f"{time.time() - begin:.0f}s step {step} scenes {len(store.items)} lr {lr:.1e} " + " ".join(f"{k} {float(v) / max(1, step - main.at):.4f}" for k, v in sums.items()), flush=True)
            sums, last, main.at = {}, time.time(), step
    store.stop = True
    args.out.mkdir(parents=True, exist_ok=True)
    state = {k: v.cpu().numpy() for k, v in mean.items()}
    np.savez(args.out / "weights.npz", **state)
    (args.out / "parts.onnx").write_bytes(network.onnx_bytes(network.folded(state)))
    print(f"done: {step} steps, {len(store.items)} scenes, seed {args.seed}")


main.at = 0

if __name__ == "__main__":
    main()
