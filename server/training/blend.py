"""Blend two files of weights of this network, one trained on from the other: each number becomes their mean.

python blend.py BEFORE.onnx AFTER.onnx OUT.onnx

What lies between two such states often errs less than either (weight averaging, common practice).
"""

import sys
from pathlib import Path


def blended(before, after):
    """The mean of two ONNX models of one shape, in the first one's order."""
    import numpy as np
    from onnx import numpy_helper

    other = {one.name: numpy_helper.to_array(one) for one in after.graph.initializer}
    for one in before.graph.initializer:
        mean = (numpy_helper.to_array(one).astype(np.float64) + other[one.name]) / 2
        one.CopyFrom(numpy_helper.from_array(mean.astype(np.float32), one.name))
    return before


if __name__ == "__main__":
    import onnx

    first, then, out = sys.argv[1:]
    Path(out).write_bytes(blended(onnx.load(first), onnx.load(then)).SerializeToString())
