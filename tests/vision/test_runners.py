"""The network says the same whoever runs it, and weights that cannot be loaded leave the classical count."""

import sys
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

import cv2
import numpy as np
import pytest

from lastbolt.vision import network
from lastbolt.vision.count import count_parts

SAMPLE = Path(__file__).parents[2] / "samples" / "photos" / "12-thermostat-housing-bolts.jpg"
WEIGHTS = resources.files("lastbolt.vision").joinpath("weights/parts.onnx").read_bytes()


@pytest.fixture(autouse=True)
def a_net_of_its_own() -> Iterator[None]:
    network._net.cache_clear()
    yield
    network._net.cache_clear()


def _picture(width: int, height: int) -> network.Image:
    rgb = cv2.imread(str(SAMPLE), cv2.IMREAD_COLOR_RGB)
    return np.asarray(cv2.resize(rgb, (width, height), interpolation=cv2.INTER_AREA), dtype=np.uint8)


def test_onnxruntime_and_opencv_give_the_same_answer() -> None:
    blob = cv2.dnn.blobFromImage(_picture(640, 480), 1 / 64.0, mean=(127.5, 127.5, 127.5))
    one, other = (run(WEIGHTS)(blob) for run in (network.by_onnxruntime, network.by_opencv))
    assert one.shape == other.shape == (18, 240, 320)
    assert float(one[0].max()) > 3.0
    np.testing.assert_allclose(one, other, atol=2e-3)


def test_without_onnxruntime_the_count_is_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    with_it = count_parts(_picture(1600, 1200), 0.2, [])
    network._net.cache_clear()
    monkeypatch.setitem(sys.modules, "onnxruntime", None)
    without = count_parts(_picture(1600, 1200), 0.2, [])
    assert with_it.count == without.count and with_it.count.count > 3
    assert with_it.method == without.method == network.METHOD


@pytest.mark.parametrize("weights", [b"", b"no weights at all", WEIGHTS[: len(WEIGHTS) // 2]])
def test_broken_weights_leave_the_classical_count(weights: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(OSError, match="cannot be loaded"):
        network.by_onnxruntime(weights)
    monkeypatch.setattr(network, "_net", lambda: network.by_onnxruntime(weights))
    assert count_parts(_picture(800, 600), 0.4, []).method == "classical-1"
