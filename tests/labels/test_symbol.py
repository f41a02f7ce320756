"""Symbols as modules and rectangles."""

import cv2
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lastbolt.errors import BadInputError
from lastbolt.label_code import HIGHEST_NUMBER, make, payload
from lastbolt.labels.layout import Box
from lastbolt.labels.symbol import Modules, black_boxes, marker_modules, qr_modules


@pytest.mark.parametrize("number", [0, 1, 2, 3])
def test_corner_markers_are_those_that_opencv_draws(number: int) -> None:
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    drawn = cv2.aruco.generateImageMarker(dictionary, number, 6) == 0
    assert np.array_equal(np.array(marker_modules(number)), drawn)


@pytest.mark.parametrize("kind", "TBPOCKWHMJS")
@pytest.mark.parametrize("number", [1, 9999, HIGHEST_NUMBER])
def test_a_bare_code_fits_the_smallest_symbol_at_the_highest_level(kind: str, number: int) -> None:
    assert len(qr_modules(payload(make(kind, number), address=None), "H")) == 21


def test_a_code_with_an_address_takes_version_3() -> None:
    assert len(qr_modules(payload(make("T", 42), address="http://192.168.1.20:8000"), "H")) == 29


def test_a_text_that_fits_no_symbol_is_refused() -> None:
    with pytest.raises(BadInputError, match="too long"):
        qr_modules("A" * 5000, "Q")


def painted(boxes: list[Box], side: int) -> list[list[int]]:
    paper = [[0] * side for _ in range(side)]
    for box in boxes:
        for row in range(round(box.top), round(box.bottom)):
            for column in range(round(box.left), round(box.right)):
                paper[row][column] += 1
    return paper


@given(st.integers(1, 9).flatmap(lambda n: st.tuples(*[st.tuples(*[st.booleans()] * n)] * n)))
def test_merged_rectangles_cover_each_black_module_once_and_no_white_one(modules: Modules) -> None:
    side = len(modules)
    boxes = black_boxes(modules, Box(0.0, 0.0, float(side), float(side)))
    assert painted(boxes, side) == [[int(black) for black in row] for row in modules]


def test_merging_leaves_far_fewer_rectangles_than_modules() -> None:
    modules = qr_modules("T-0042-E", "H")
    assert len(black_boxes(modules, Box(0, 0, 25, 25))) < sum(map(sum, modules)) / 2
