"""Trains the part reader on a folder of scenes: `python train.py SCENES OUT --seconds 900 --gpus 2 --start parts.onnx`.

Everything lives on the GPU, one copy of the scenes on each: pictures as bytes, crops turned, scaled, lit and blurred
there; with several GPUs each works on its own crops and their gradients are averaged. Seeds are fixed; a run repeats
up to the GPU's own order of additions and to the number of steps that fit into `--seconds` (`--steps` fixes it).
"""
import argparse, math, os, time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
import cv2, numpy as np, torch
import torch.distributed as dist
import torch.nn.functional as F
import network

CROP, CELL, MOST = 512, 256, 56
UNIT = network.OFFSET_UNIT
DEV = "cuda"


def read_scene(path):
    """A scene's pixels as one int32 each (red, green, blue, part number), and its part rows."""
    d = np.load(path)
    bgr, ids = cv2.imdecode(d["jpg"], cv2.IMREAD_COLOR), d["ids"]
    packed = np.ascontiguousarray(np.dstack([bgr[..., ::-1], ids])).view(np.int32)[..., 0]
    parts = np.full((MOST, 13), np.nan, np.float32)
    rows = d["parts"][:MOST]
    parts[:len(rows)] = rows
    return packed, parts


class Store:
    """All scenes of a folder in one long row of pixels on the GPU."""

    def __init__(self, folder, threads=16):
        paths = sorted(Path(folder).glob("s*.npz"))
        pixels, self.rows, self.shape = [], [], []
        with ThreadPoolExecutor(threads) as pool:
            for path, scene in zip(paths, pool.map(_or_none, paths)):
                if scene is None:
                    print("left out", path.name, flush=True)
                    continue
                pixels.append(torch.from_numpy(scene[0].ravel()).to(DEV))
                self.rows.append(scene[1])
                self.shape.append(scene[0].shape[::-1])
        self.start = torch.tensor(np.r_[0, np.cumsum([len(p) for p in pixels])[:-1]], device=DEV)
        self.pixels = torch.cat(pixels)
        self.size = torch.tensor(self.shape, device=DEV)
        self.parts = torch.from_numpy(np.stack(self.rows)).to(DEV)

    def __len__(self):
        return len(self.rows)


def _or_none(path):
    try:
        return read_scene(path)
    except (OSError, ValueError, KeyError, EOFError):
        return None


def crop_matrix(rng, size, parts):
    """2 x 3 matrix from crop pixels to picture pixels; looks at parts more often than at bare floor."""
    w, h = size
    angle, scale = rng.uniform(0, 2 * math.pi) if rng.random() < 0.7 else rng.normal(0, 0.1), math.exp(rng.normal(-0.02, 0.17))
    flip = -1 if rng.random() < 0.5 else 1
    rows = parts[:, 1:3]
    n = int(np.isfinite(rows[:, 0]).sum())
    if n and rng.random() < 0.75:
        at = rows[rng.integers(n)] + rng.normal(0, 90, 2)
    else:
        at = np.array([rng.uniform(0, w), rng.uniform(0, h)])
    c, s = math.cos(angle) * scale, math.sin(angle) * scale
    m = np.array([[c * flip, -s], [s * flip, c]])
    return np.c_[m, at - m @ np.array([CROP / 2 - 0.5] * 2)]


def batch(store, rng, size):
    """Crops (0..255), part numbers of their pixels, and part rows in crop pixels."""
    pick = rng.integers(len(store), size=size)
    ms = np.stack([crop_matrix(rng, store.shape[k], store.rows[k]) for k in pick])
    m, index = torch.tensor(ms, dtype=torch.float32, device=DEV), torch.tensor(pick, device=DEV)
    line = torch.arange(CROP, device=DEV, dtype=torch.float32)
    gx, gy = line[None, None, :], line[None, :, None]
    x = m[:, 0, 0, None, None] * gx + m[:, 0, 1, None, None] * gy + m[:, 0, 2, None, None]
    y = m[:, 1, 0, None, None] * gx + m[:, 1, 1, None, None] * gy + m[:, 1, 2, None, None]
    w, h = (store.size[index][:, k, None, None] for k in (0, 1))
    inside = (x > -0.5) & (y > -0.5) & (x < w - 0.5) & (y < h - 0.5)
    start = store.start[index][:, None, None]

    def at(px, py):
        """Packed pixels at whole places, mirrored at the picture's edge."""
        px, py = (torch.remainder(p.long(), 2 * n) for p, n in ((px, w), (py, h)))
        px, py = torch.minimum(px, 2 * w - 1 - px), torch.minimum(py, 2 * h - 1 - py)
        return store.pixels[start + py * w + px]

    def colours(v):
        return torch.stack([v & 255, (v >> 8) & 255, (v >> 16) & 255], 1).float()
    x0, y0 = x.floor(), y.floor()
    fx, fy = (x - x0)[:, None], (y - y0)[:, None]
    rgb = (colours(at(x0, y0)) * (1 - fx) + colours(at(x0 + 1, y0)) * fx) * (1 - fy) + (colours(at(x0, y0 + 1)) * (1 - fx) + colours(at(x0 + 1, y0 + 1)) * fx) * fy
    ids = ((at(x.round(), y.round()) >> 24) & 255) * inside
    inv = torch.linalg.inv(m[:, :, :2])
    rows = store.parts[index].clone()
    for a in (1, 3, 5, 7):
        rows[..., a:a + 2] = (rows[..., a:a + 2] - m[:, None, :, 2]) @ inv.transpose(1, 2)
    rows[..., 9:11] /= torch.linalg.det(m[:, :, :2]).abs().sqrt()[:, None, None]
    return rgb, ids.long(), rows


def layers_of(bank, n, g):
    """n layers of marks from the bank, shifted, turned and mirrored: n x 1 x CROP x CROP in 0..1."""
    pick = torch.randint(len(bank), (n,), device=DEV, generator=g)
    out = bank[pick].float()[:, None] / 255
    dx, dy, way = (int(torch.randint(top, (1,), device=DEV, generator=g)) for top in (CROP, CROP, 8))
    out = torch.roll(out, (dx, dy), (2, 3))
    out = out.flip(2) if way & 1 else out
    out = out.flip(3) if way & 2 else out
    return out.transpose(2, 3) if way & 4 else out


def marked(rgb, ids, bank, g, share):
    """Marks laid over what is no part on a share of the crops: printed, worn bright, painted or pressed in; and where.

    A print multiplies what the floor sends back, so shadow and lamp stay as they were rendered; paint takes the floor's
    own brightness; what is pressed in is lit from one side.
    """
    n = rgb.shape[0]
    r = lambda *s: torch.rand(*s, device=DEV, generator=g)
    some = (r(n, 1, 1, 1) < share).float()
    where = layers_of(bank, n, g) * (ids == 0).float()[:, None] * some
    way, a = r(n, 1, 1, 1), r(n, 1, 1, 1)
    tint = 1 - 0.6 * r(n, 3, 1, 1) * (r(n, 1, 1, 1) < 0.4)
    ink = rgb * (1 - where * (0.12 + 0.83 * a) * tint)
    worn = rgb * (1 + where * (0.12 + 0.7 * a))
    calm = F.avg_pool2d(F.avg_pool2d(rgb.mean(1, keepdim=True), 8), 3, 1, 1, count_include_pad=False)
    calm = F.interpolate(calm, size=rgb.shape[2:], mode="bilinear", align_corners=False)
    grey = 0.25 + 1.9 * r(n, 1, 1, 1)
    colour = calm * grey * (1 + (r(n, 3, 1, 1) - 0.5) * (r(n, 1, 1, 1) < 0.5)) + 12 * grey
    cover = where * (0.4 + 0.6 * a)
    paint = rgb * (1 - cover) + colour * cover
    turn = 6.2832 * r(n, 1, 1, 1)
    soft = F.avg_pool2d(where, 3, 1, 1)
    slope = (torch.roll(soft, 1, 3) - torch.roll(soft, -1, 3)) * turn.cos() + (torch.roll(soft, 1, 2) - torch.roll(soft, -1, 2)) * turn.sin()
    pressed = rgb * torch.exp((0.4 + 1.8 * a) * slope.clamp(-1, 1)) * (1 - 0.25 * where * a) + 40 * (slope - 0.4).clamp(min=0) * (r(n, 1, 1, 1) < 0.3)
    out = torch.where(way < 0.42, ink, torch.where(way < 0.55, worn, torch.where(way < 0.75, paint, pressed)))
    return out.clamp(0, 255), where


def light(x, g):
    """Colours, lamps, shadows, blur and noise; x in 0..255, result too."""
    n = x.shape[0]
    r = lambda *s: torch.rand(*s, device=DEV, generator=g)
    z = lambda *s: torch.randn(*s, device=DEV, generator=g)
    some = lambda p: (r(n, 1, 1, 1) < p).float()
    x = (x / 255).clamp(1e-4, 1)
    mix = torch.eye(3, device=DEV) + 0.10 * z(n, 3, 3) * some(0.5)[:, 0]
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
    y, xx = torch.meshgrid(torch.arange(-4, 5, device=DEV), torch.arange(-4, 5, device=DEV), indexing="ij")
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


def targets(ids, rows, where=None, lone=1.0):
    """Everything that the loss compares with, at one cell for two pixels.

    `where` marks lie, an error weighs more, and `lone` times as much in crops with three parts or fewer.
    """
    b = ids.shape[0]
    small = ids[:, ::2, ::2]
    mask = F.avg_pool2d((ids > 0).float()[:, None], 2)
    count = torch.zeros(b, MOST + 1, device=DEV).scatter_add_(1, small.flatten(1).clamp(max=MOST), torch.ones_like(small, dtype=torch.float32).flatten(1))
    usable = (rows[..., 11] >= 24) & (count[:, 1:] > 4)
    at = (small - 1).clamp(0, MOST - 1)
    rows0 = torch.nan_to_num(rows)
    pixel = torch.gather(rows0, 1, at.flatten(1)[..., None].expand(-1, -1, rows.shape[2])).view(b, CELL, CELL, -1)
    known = torch.gather(torch.isfinite(rows).float(), 1, at.flatten(1)[..., None].expand(-1, -1, rows.shape[2])).view(b, CELL, CELL, -1)
    good = torch.gather(usable.float(), 1, at.flatten(1)).view(b, CELL, CELL) * (small > 0)
    area = torch.gather(count[:, 1:], 1, at.flatten(1)).view(b, CELL, CELL).clamp(min=10)
    weight = good * (150 / area).sqrt().clamp(0.3, 3)
    ignore = ((small > 0) & (good == 0)).float()[:, None]
    line = torch.arange(CELL, device=DEV) * 2 + 0.5
    cx = torch.where(usable, rows0[..., 1], torch.full_like(rows0[..., 1], -1e4))
    dx = torch.exp(-((line[None, None] - cx[..., None]) / 4.0) ** 2 / 2)
    dy = torch.exp(-((line[None, None] - rows0[..., 2][..., None]) / 4.0) ** 2 / 2)
    heat = torch.stack([(dy[k][:, :, None] * dx[k][:, None, :]).amax(0) for k in range(b)])[:, None]
    s = small.float()[:, None]
    big, low = F.max_pool2d(s, 3, 1, 1), -F.max_pool2d(-torch.where(s > 0, s, torch.full_like(s, 99)), 3, 1, 1)
    seam = ((big != low) & (low < 99) & (s > 0)).float()
    grid = torch.stack(torch.meshgrid(line, line, indexing="xy"), -1)
    heed = 1 + (0 if where is None else (F.max_pool2d(where, 2) > 0.1).float())
    few = ((count[:, 1:] > 4).sum(1) <= 3).float()[:, None, None, None]
    return dict(heed=heed, lone=1 + (lone - 1) * few, mask=mask, heat=heat, seam=seam, weight=weight, ignore=ignore, pixel=pixel, known=known, grid=grid)


def loss_of(out, t):
    ch = {k: out[:, a:b].float() for k, (a, b) in network.CHANNELS.items()}
    use = 1 - t["ignore"]
    bce = F.binary_cross_entropy_with_logits(ch["mask"], t["mask"], reduction="none") * use * t["lone"] * (t["heed"] + 2 * t["mask"])
    p = torch.sigmoid(ch["mask"]) * use
    dice = 1 - (2 * (p * t["mask"]).sum((1, 2, 3)) + 20) / (p.sum((1, 2, 3)) + (t["mask"] * use).sum((1, 2, 3)) + 20)
    losses = dict(mask=bce.mean() * 2 + 0.5 * dice.mean())
    ph, th = torch.sigmoid(ch["heat"]).clamp(1e-4, 1 - 1e-4), t["heat"]
    peak = (th > 0.93).float()
    focal = -(peak * (1 - ph) ** 2 * ph.log() + (1 - peak) * (1 - th) ** 4 * ph ** 2 * (1 - ph).log()) * use * t["lone"] * t["heed"]
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
    vector("under", 5, 1.0)
    vector("tip", 7, 1.0)
    for name, a in (("head", 9), ("shank", 10)):
        ww = w * t["known"][..., a]
        losses[name] = 0.7 * ((t["pixel"][..., a] / UNIT - ch[name][:, 0]).abs() * ww).sum() / (ww.sum() + 50)
    kind = F.cross_entropy(ch["kind"], t["pixel"][..., 0].long(), reduction="none")
    losses["kind"] = 0.8 * (kind * w).sum() / total
    bolt = (t["pixel"][..., 0] < 3).float() * w
    losses["stand"] = 0.2 * (F.binary_cross_entropy_with_logits(ch["stand"][:, 0], t["pixel"][..., 12], reduction="none") * bolt).sum() / (bolt.sum() + 50)
    return losses


def forgotten(out, before, t):
    """How far the answer on parts has fallen below what earlier weights gave there: nothing where it has risen.

    So what is learned about marks is not paid for with parts that were seen (distillation, one-sided).
    """
    (a, _), (b, _) = network.CHANNELS["mask"], network.CHANNELS["heat"]
    w = t["weight"][:, None] * (t["mask"] > 0.5)
    mask = F.relu(before[:, a:a + 1].float().clamp(max=4) - out[:, a:a + 1].float())
    heat = F.relu(before[:, b:b + 1].float().clamp(max=2.5) - out[:, b:b + 1].float())
    peak = (t["heat"] > 0.93).float() * (1 - t["ignore"])
    return (mask * w).sum() / (w.sum() + 50) + (heat * peak).sum() / (peak.sum() + 20)


def whole_mean(model):
    """Average the gradients of all processes."""
    grads = [p.grad for p in model.parameters()]
    flat = torch.cat([g.reshape(-1) for g in grads])
    dist.all_reduce(flat)
    flat /= dist.get_world_size()
    at = 0
    for g in grads:
        g.copy_(flat[at:at + g.numel()].view_as(g))
        at += g.numel()


def first_pictures(store, size):
    with torch.no_grad():
        return (batch(store, np.random.default_rng(0), size)[0] - 127.5) / 64


def teacher(path, store, size):
    """The network with the weights of an ONNX file, which stay as they are."""
    model = network.torch_module().to(DEV).to(memory_format=torch.channels_last)
    network.start_from(model, path, first_pictures(store, size))
    return model.eval().requires_grad_(False)


def train(rank, args):
    """One GPU's share of the run; the first one writes the result."""
    global DEV
    begin = time.time()
    DEV = "cpu" if args.cpu else f"cuda:{rank}"
    if not args.cpu:
        torch.cuda.set_device(rank)
    if args.gpus > 1:
        os.environ.setdefault("MASTER_ADDR", "127.0.0.1")
        os.environ.setdefault("MASTER_PORT", "29517")
        dist.init_process_group("gloo" if args.cpu else "nccl", rank=rank, world_size=args.gpus)
    torch.manual_seed(args.seed)
    torch.backends.cudnn.benchmark = True
    store = Store(args.scenes)
    bank = torch.from_numpy(np.load(args.marks)).to(DEV) if args.marks else None
    rng, g = np.random.default_rng([args.seed, rank]), torch.Generator(DEV).manual_seed(args.seed + 1000 * rank)
    model = network.torch_module().to(DEV).to(memory_format=torch.channels_last)
    if args.start and args.start.suffix == ".onnx":
        network.start_from(model, args.start, first_pictures(store, args.batch))
    elif args.start:
        model.load_state_dict({k: torch.from_numpy(v) for k, v in np.load(args.start).items()})
    print(f"gpu {rank}: {len(store)} scenes, {store.pixels.numel() / 1e6:.0f} Mpx, ready after {time.time() - begin:.0f} s", flush=True)
    before = teacher(args.start, store, args.batch) if args.hold else None
    mean = [v.detach().clone().float() for v in model.state_dict().values()]
    opt = torch.optim.AdamW(model.parameters(), lr=args.lr, weight_decay=0.02, fused=not args.cpu)
    t0 = last = time.time()
    until, step, sums, at, done = begin + args.seconds, 0, {}, 0, 0.0
    while done < 1:
        done = (step + 1) / args.steps if args.steps else min(1.0, (time.time() - t0) / (until - t0))
        if args.gpus > 1 and not args.steps:  # all stop at the same step
            share = torch.tensor([done], device=DEV)
            dist.broadcast(share, 0)
            done = float(share)
        lr = args.lr * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, done))) + 1e-6
        for group in opt.param_groups:
            group["lr"] = lr
        with torch.no_grad():
            x, ids, rows = batch(store, rng, args.batch)
            where = None
            if bank is not None:
                x, where = marked(x, ids, bank, g, args.marked)
            x = (light(x, g) - 127.5) / 64
            t = targets(ids, rows, where, args.lone)
        with torch.autocast("cpu" if args.cpu else "cuda", torch.bfloat16):
            x = x.contiguous(memory_format=torch.channels_last)
            out = model(x)
            held = before(x) if before else None
        losses = loss_of(out, t)
        if before:
            losses["forgotten"] = args.hold * forgotten(out, held, t)
        opt.zero_grad(set_to_none=True)
        sum(losses.values()).backward()
        if args.gpus > 1:
            whole_mean(model)
        torch.nn.utils.clip_grad_norm_(model.parameters(), 5.0)
        opt.step()
        step += 1
        if step % 5 == 0:
            keep = min(0.995, step / (step + 100))
            with torch.no_grad():
                torch._foreach_lerp_(mean, [v.float() for v in model.state_dict().values()], 1 - keep)
        for k, v in losses.items():
            sums[k] = sums.get(k, 0) + v.detach()
        if rank == 0 and time.time() - last > 20:
            print(f"{time.time() - begin:.0f}s step {step} lr {lr:.1e} " + " ".join(f"{k} {float(v) / (step - at):.4f}" for k, v in sums.items()), flush=True)
            sums, last, at = {}, time.time(), step
            save(args.out, {k: v.cpu().numpy() for k, v in zip(model.state_dict(), mean)})
    if rank == 0:
        save(args.out, {k: v.cpu().numpy() for k, v in zip(model.state_dict(), mean)})
        print(f"done: {step} steps of {args.gpus} x {args.batch} crops, {len(store)} scenes, seed {args.seed}", flush=True)
    if args.gpus > 1:
        dist.barrier()
        dist.destroy_process_group()


def save(folder, state):
    folder.mkdir(parents=True, exist_ok=True)
    np.savez(folder / "weights.npz", **state)
    (folder / "parts.onnx").write_bytes(network.onnx_bytes(network.folded(state)))


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("scenes")
    ap.add_argument("out", type=Path)
    ap.add_argument("--seconds", type=float, default=500)
    ap.add_argument("--steps", type=int, help="instead of --seconds: a run of just so many steps")
    ap.add_argument("--start", type=Path, help="weights (.npz or .onnx) to go on from")
    ap.add_argument("--marks", type=Path, help="bank of mark layers (.npy, from drawn.py) to lay over floors")
    ap.add_argument("--marked", type=float, default=0.6, help="share of the crops that marks are laid over")
    ap.add_argument("--lone", type=float, default=1.0, help="weight of crops with three parts or fewer")
    ap.add_argument("--hold", type=float, default=0.0, help="weight of not falling below the --start (.onnx) on parts")
    ap.add_argument("--lr", type=float, default=2.5e-3)
    ap.add_argument("--batch", type=int, default=32, help="crops a step and GPU")
    ap.add_argument("--gpus", type=int, default=1)
    ap.add_argument("--cpu", action="store_true")
    ap.add_argument("--seed", type=int, default=1)
    args = ap.parse_args()
    if args.gpus == 1:
        return train(0, args)
    torch.multiprocessing.spawn(train, (args,), args.gpus)


if __name__ == "__main__":
    main()
