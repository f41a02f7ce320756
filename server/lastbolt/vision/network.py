"""The learned part reader: a small convolutional network, trained on rendered scenes, run by onnxruntime."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from threading import Lock

import cv2
import numpy as np
import numpy.typing as npt

from lastbolt.vision.outcome import Image

NET_MM_PER_PX = 0.36
"""Millimetres a pixel that the network was trained at."""

CELL_PX = 2
"""Input pixels along the edge of one output cell."""

KINDS = ("hex_bolt", "socket_screw", "flange_bolt", "hex_nut", "washer", "part")
METHOD = "network-6"

_OFFSET_UNIT = 16.0
_STRIDE = 32
_AT_ONCE = 900_000
"""Pixels from which a picture is read in two halves."""
_OVERLAP_PX = 64
_lock = Lock()

Map = npt.NDArray[np.float32]
Run = Callable[[Map], Map]
"""From a batch of one picture, 1 x 3 x height x width, to the network's bare answer, channels x cells."""


@dataclass(frozen=True, slots=True, eq=False)
class Maps:
    """What the network says of each cell of the picture; all arrays are h x w or h x w x n.

    Vectors lead from the cell's centre to a point of its part, in input pixels (x, y).
    """

    mask: Map
    heat: Map
    centre: Map
    under: Map
    tip: Map
    head: Map
    shank: Map
    kind: Map
    stand: Map


def read_maps(image: Image) -> Maps:
    """Run the network on a picture that shows NET_MM_PER_PX millimetres a pixel."""
    height, width = image.shape[:2]
    pad = (-height % _STRIDE, -width % _STRIDE)
    whole = cv2.copyMakeBorder(image, 0, pad[0], 0, pad[1], cv2.BORDER_REPLICATE)
    out = _run(whole) if whole.shape[0] * whole.shape[1] <= _AT_ONCE else _run_in_halves(whole)
    out = out[:, : -(-height // CELL_PX), : -(-width // CELL_PX)]
    kind = out[10:16] - out[10:16].max(0)
    kind = np.exp(kind, out=kind)
    return Maps(
        mask=_squash(out[0]),
        heat=_squash(out[1]),
        centre=_vector(out[2:4]),
        under=_vector(out[4:6]),
        tip=_vector(out[6:8]),
        head=out[8] * _OFFSET_UNIT,
        shank=out[9] * _OFFSET_UNIT,
        kind=np.moveaxis(kind / kind.sum(0), 0, -1),
        stand=_squash(out[16]),
    )


def _run(image: Image) -> Map:
    """The network's bare answer, channels x cells, on a picture whose edges are multiples of its stride."""
    blob = cv2.dnn.blobFromImage(image, 1 / 64.0, mean=(127.5, 127.5, 127.5))
    with _lock:
        return _net()(np.asarray(blob, dtype=np.float32))


def _run_in_halves(image: Image) -> Map:
    """The same from two halves, since the memory that it takes grows with the picture.

    They overlap by what a cell's answer depends on: of 7 million cells on 24 pictures 28 changed sides.
    """
    along = int(image.shape[1] > image.shape[0])
    middle = image.shape[along] // 2 // _STRIDE * _STRIDE
    first, last = (
        np.split(image, [middle + _OVERLAP_PX], along)[0],
        np.split(image, [middle - _OVERLAP_PX], along)[1],
    )
    head = np.split(_run(np.ascontiguousarray(first)), [middle // CELL_PX], along + 1)[0]
    tail = np.split(_run(np.ascontiguousarray(last)), [_OVERLAP_PX // CELL_PX], along + 1)[1]
    return np.concatenate([head, tail], along + 1)


@lru_cache(maxsize=1)
def _net() -> Run:
    weights = resources.files("lastbolt.vision").joinpath("weights/parts.onnx").read_bytes()
    try:
        return by_onnxruntime(weights)
    except ImportError:
        return by_opencv(weights)


def by_onnxruntime(weights: bytes) -> Run:
    """Two thirds of the time that OpenCV takes; raises OSError where the weights cannot be loaded or run."""
    import onnxruntime
    from onnxruntime.capi import onnxruntime_pybind11_state as own

    names = ("Fail", "InvalidArgument", "InvalidGraph", "InvalidProtobuf", "NoModel", "RuntimeException")
    errors = tuple(getattr(own, name) for name in names)  # they have no base class but Exception
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = cv2.getNumThreads()
    options.enable_mem_pattern = False  # with it a large picture takes half as much memory again

    def run(blob: Map) -> Map:
        try:
            return np.asarray(session.run(None, {"input": blob})[0][0], dtype=np.float32)
        except errors as trouble:
            raise OSError("the learned reader's weights cannot be run") from trouble

    try:
        session = onnxruntime.InferenceSession(weights, options, providers=["CPUExecutionProvider"])
    except errors as trouble:
        raise OSError("the learned reader's weights cannot be loaded") from trouble
    return run


def by_opencv(weights: bytes) -> Run:
    """The same by OpenCV, where onnxruntime cannot be loaded."""
    net = cv2.dnn.readNetFromONNX(np.frombuffer(weights, dtype=np.uint8))

    def run(blob: Map) -> Map:
        net.setInput(blob)
        return np.array(net.forward()[0], dtype=np.float32)

    return run


def _squash(logits: Map) -> Map:
    return np.asarray(1.0 / (1.0 + np.exp(-logits.clip(-30, 30))), dtype=np.float32)


def _vector(pair: Map) -> Map:
    return np.asarray(np.moveaxis(pair, 0, -1) * _OFFSET_UNIT, dtype=np.float32)
