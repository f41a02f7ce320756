"""The part reader's network as plain data, so that the same list trains in PyTorch and is written as ONNX.

Input: 1 x 3 x H x W, red green blue, (value - 127.5) / 64, H and W multiples of 32, NET_MM_PER_PX millimetres a pixel.
Output: 1 x 18 x H/2 x W/2, channels as in CHANNELS.
"""
CHANNELS = dict(mask=(0, 1), heat=(1, 2), centre=(2, 4), under=(4, 6), tip=(6, 8), head=(8, 9), shank=(9, 10), kind=(10, 16), stand=(16, 17), seam=(17, 18))
OFFSET_UNIT = 16.0
"""Offsets and sizes are in units of this many input pixels."""


def layers():
    """(name, operation, inputs, in channels, out channels, kernel, stride, relu); operations: conv, up, add."""
    out = []

    def conv(name, src, a, b, k=3, s=1, relu=True):
        out.append((name, "conv", [src], a, b, k, s, relu))
        return name

    def block(name, src, c):
        x = conv(name + "a", src, c, c)
        y = conv(name + "b", x, c, c, relu=False)
        out.append((name, "add", [src, y], c, c, 0, 0, True))
        return name

    def merge(name, deep, skip, a, b, c):
        low = conv(name + "d", deep, a, c, k=1, relu=False)
        out.append((name + "u", "up", [low], c, c, 0, 0, False))
        side = conv(name + "s", skip, b, c, k=1, relu=False)
        out.append((name, "add", [name + "u", side], c, c, 0, 0, True))
        return name
    e1 = conv("e1", conv("stem", "input", 3, 16, s=2), 16, 20)
    e2 = block("e2", conv("e2i", e1, 20, 32, s=2), 32)
    e3 = block("e3y", block("e3x", conv("e3i", e2, 32, 64, s=2), 64), 64)
    e4 = block("e4y", block("e4x", conv("e4i", e3, 64, 104, s=2), 104), 104)
    e5 = block("e5y", block("e5x", conv("e5i", e4, 104, 104, s=2), 104), 104)
    d4 = conv("d4c", merge("d4", e5, e4, 104, 104, 96), 96, 96)
    d3 = block("d3c", merge("d3", d4, e3, 96, 64, 64), 64)
    d2 = block("d2c", merge("d2", d3, e2, 64, 32, 48), 48)
    d1 = conv("d1c", merge("d1", d2, e1, 48, 20, 32), 32, 36)
    conv("fine", d1, 36, 18, k=1, relu=False)
    coarse = conv("coarse", conv("wide", d2, 48, 48), 48, 18, k=1, relu=False)
    out.append(("coarseu", "up", [coarse], 18, 18, 0, 0, False))
    out.append(("output", "add", ["fine", "coarseu"], 18, 18, 0, 0, False))
    return out


LAST = ("fine", "coarse")
"""Convolutions with a bias of their own and no normalisation: what they give is added up to the output."""


def torch_module():
    """The network in PyTorch, with batch normalisation after each convolution but the last."""
    import torch
    from torch import nn
    import torch.nn.functional as F

    class Parts(nn.Module):
        def __init__(self):
            super().__init__()
            self.conv, self.norm = nn.ModuleDict(), nn.ModuleDict()
            for name, op, _, a, b, k, s, _ in layers():
                if op == "conv":
                    last = name in LAST
                    self.conv[name] = nn.Conv2d(a, b, k, s, k // 2, bias=last)
                    if name == "coarse":
                        nn.init.zeros_(self.conv[name].weight)
                        nn.init.zeros_(self.conv[name].bias)
                    elif last:
                        nn.init.constant_(self.conv[name].bias[:2], -3.0)
                    else:
                        self.norm[name] = nn.BatchNorm2d(b, momentum=0.05)

        def forward(self, x):
            seen = {"input": x}
            for name, op, src, _, _, _, _, relu in layers():
                if op == "conv":
                    y = self.conv[name](seen[src[0]])
                    y = self.norm[name](y) if name in self.norm else y
                elif op == "up":
                    y = F.interpolate(seen[src[0]], scale_factor=2, mode="nearest")
                else:
                    y = seen[src[0]] + seen[src[1]]
                seen[name] = F.relu(y) if relu else y
            return seen["output"]
    return Parts()


def folded(state):
    """{name: (weight, bias)} as numpy arrays with the batch normalisation folded in, from a state dict of arrays."""
    import numpy as np
    out = {}
    for name, op, *_ in layers():
        if op != "conv":
            continue
        w = np.asarray(state[f"conv.{name}.weight"], np.float64)
        if f"norm.{name}.weight" in state:
            g = np.asarray(state[f"norm.{name}.weight"], np.float64) / np.sqrt(np.asarray(state[f"norm.{name}.running_var"], np.float64) + 1e-5)
            b = np.asarray(state[f"norm.{name}.bias"], np.float64) - np.asarray(state[f"norm.{name}.running_mean"], np.float64) * g
            w = w * g[:, None, None, None]
        else:
            b = np.asarray(state[f"conv.{name}.bias"], np.float64)
        out[name] = w.astype(np.float32), b.astype(np.float32)
    return out


def start_from(model, path, pictures):
    """Take over the weights of an ONNX file of this family; layers that it has not keep theirs.

    Its normalisations are folded away, so they are set anew from one batch of `pictures` (n x 3 x h x w, as the
    network takes them): the model then answers as the file does.
    """
    import onnx
    import torch
    from onnx import numpy_helper
    held = {init.name: numpy_helper.to_array(init) for init in onnx.load(str(path)).graph.initializer}
    old = {"fine": "output"} if "output_w" in held else {}
    hooks = []

    def settle(name, bias):
        def hook(_, __, y):
            mean, var = y.float().mean((0, 2, 3)), y.float().var((0, 2, 3))
            norm = model.norm[name]
            norm.running_mean.copy_(mean)
            norm.running_var.copy_(var)
            norm.weight.data.copy_((var + norm.eps).sqrt())
            norm.bias.data.copy_(bias.to(mean.device) + mean)
        return hook
    for name, conv in model.conv.items():
        source = old.get(name, name)
        if source + "_w" not in held:
            print("starts anew:", name, flush=True)
            continue
        conv.weight.data.copy_(torch.from_numpy(held[source + "_w"].copy()))
        bias = torch.from_numpy(held[source + "_b"].copy())
        if name in LAST:
            conv.bias.data.copy_(bias)
        else:
            hooks.append(conv.register_forward_hook(settle(name, bias)))
    model.eval()
    with torch.no_grad():
        model(pictures)
    for hook in hooks:
        hook.remove()
    model.train()


def onnx_bytes(weights, half=False):
    """The ONNX file (opset 13) for {name: (weight, bias)}."""
    import numpy as np
    import onnx
    from onnx import TensorProto, helper, numpy_helper
    nodes, inits, after = [], [], {"input": "input"}
    inits.append(numpy_helper.from_array(np.array([1, 1, 2, 2], np.float32), "twice"))
    for name, op, src, _, _, k, s, relu in layers():
        at = [after[q] for q in src]
        raw = name if not relu else name + "_raw"
        if op == "conv":
            w, b = weights[name]
            inits += [numpy_helper.from_array(w, name + "_w"), numpy_helper.from_array(b, name + "_b")]
            nodes.append(helper.make_node("Conv", [at[0], name + "_w", name + "_b"], [raw], name=name, kernel_shape=[k, k], strides=[s, s], pads=[k // 2] * 4))
        elif op == "up":
            nodes.append(helper.make_node("Resize", [at[0], "", "twice"], [raw], name=name, mode="nearest", coordinate_transformation_mode="asymmetric", nearest_mode="floor"))
        else:
            nodes.append(helper.make_node("Add", at, [raw], name=name))
        if relu:
            nodes.append(helper.make_node("Relu", [raw], [name], name=name + "_relu"))
        after[name] = name
    graph = helper.make_graph(nodes, "parts", [helper.make_tensor_value_info("input", TensorProto.FLOAT, [1, 3, "h", "w"])],
                              [helper.make_tensor_value_info("output", TensorProto.FLOAT, [1, 18, "h2", "w2"])], inits)
    model = helper.make_model(graph, opset_imports=[helper.make_opsetid("", 13)], producer_name="lastbolt")
    model.ir_version = 8
    onnx.checker.check_model(model)
    return model.SerializeToString()
