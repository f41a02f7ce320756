"""Printed pages looked at from outside: rendered by poppler, read by two decoders, measured in pixels.

Sources: quiet zone 4 modules and side 17 + 4 x version, ISO/IEC 18004 (qrcode.com/en/howto/code.html);
A4 210 x 297 mm, ISO 216; markers by OpenCV's aruco module. A pixel at 300 dpi is 0.085 mm.
"""

import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np
import pytest
import zxingcpp
from tests.labels.layouts import MATS, SHEETS, label_layout, mat_layout

from lastbolt.label_code import LabelCode, make, payload, read
from lastbolt.labels.layout import Box, label_parts, on_paper
from lastbolt.labels.sheet import draw_mat, draw_sheet

DPI = 300
PX_PER_MM = DPI / 25.4
ADDRESS = "http://192.168.1.20:8000"
Render = Callable[[bytes], list[np.ndarray]]


def run(program: str, *arguments: str) -> str:
    if shutil.which(program) is None:
        pytest.fail(f"{program} is missing: install the package poppler-utils")
    return subprocess.run([program, *arguments], check=True, capture_output=True, text=True).stdout


@pytest.fixture
def render(tmp_path: Path) -> Render:
    def to_pages(pdf: bytes) -> list[np.ndarray]:
        (tmp_path / "page.pdf").write_bytes(pdf)
        run("pdftoppm", "-r", str(DPI), "-gray", str(tmp_path / "page.pdf"), str(tmp_path / "page"))
        files = sorted(tmp_path.glob("page*.pgm"))
        pages = [cv2.imread(str(path), cv2.IMREAD_GRAYSCALE) for path in files]
        for path in files:
            path.unlink()
        return pages

    return to_pages


def text_of(pdf: bytes, folder: Path) -> str:
    (folder / "text.pdf").write_bytes(pdf)
    return run("pdftotext", "-layout", str(folder / "text.pdf"), "-")


def cut(page: np.ndarray, box: Box, *, rim_mm: float = 0.0) -> np.ndarray:
    top, left = max(box.top - rim_mm, 0), max(box.left - rim_mm, 0)
    rows = slice(round(top * PX_PER_MM), round((box.bottom + rim_mm) * PX_PER_MM))
    columns = slice(round(left * PX_PER_MM), round((box.right + rim_mm) * PX_PER_MM))
    return page[rows, columns]


def symbol_places(name: str, count: int) -> Iterator[tuple[int, Box]]:
    template = label_layout(name)
    for number in range(count):
        cell = template.grid.cell(number % template.grid.cells)
        place = on_paper(label_parts(template).symbol, cell, turned=template.grid.turned)
        yield number // template.grid.cells, place


def black_extent_mm(picture: np.ndarray) -> tuple[float, float]:
    """Width and height from the first to the last ink, the outermost pixels by their darkness."""
    ink = 1.0 - picture.astype(np.float64) / 255.0
    extents = []
    for profile in (ink.max(axis=0), ink.max(axis=1)):
        inked = np.flatnonzero(profile > 0.01)
        first, last = inked[0], inked[-1]
        extents.append((last - first - 1 + profile[first] + profile[last]) / PX_PER_MM)
    return extents[0], extents[1]


def codes_for(name: str) -> list[LabelCode]:
    cells = label_layout(name).grid.cells
    return [make("TBPC"[number % 4], 37 + 411 * number) for number in range(cells if cells > 1 else 3)]


@pytest.mark.parametrize("address", [None, ADDRESS])
@pytest.mark.parametrize("name", SHEETS)
def test_two_decoders_read_every_printed_symbol(name: str, address: str | None, render: Render) -> None:
    template, codes = label_layout(name), codes_for(name)
    pages = render(draw_sheet(template, codes, address=address))
    expected = [payload(code, address=address) for code in codes]
    whole = [found.text for page in pages for found in zxingcpp.read_barcodes(page)]
    assert sorted(whole) == sorted(expected)
    assert {found.code for text in whole if (found := read(text)) and found.checked} == set(codes)
    quiet = template.symbol.quiet_mm
    opencv = cv2.QRCodeDetector()
    places = symbol_places(name, len(codes))
    read_alone = [opencv.detectAndDecode(cut(pages[page], box, rim_mm=quiet))[0] for page, box in places]
    assert read_alone == expected


@pytest.mark.parametrize("name", SHEETS)
def test_printed_symbols_measure_25_mm_with_a_blank_quiet_zone(name: str, render: Render) -> None:
    template, codes = label_layout(name), codes_for(name)
    pages = render(draw_sheet(template, codes))
    for page, box in symbol_places(name, len(codes)):
        # One pixel less than four modules: the crop itself is only right to a pixel.
        around = cut(pages[page], box, rim_mm=4 * 25.0 / 21 - 0.1)
        width, height = black_extent_mm(around)
        assert width == pytest.approx(25.0, abs=0.1)
        assert height == pytest.approx(25.0, abs=0.1)


@pytest.mark.parametrize("address", [None, ADDRESS])
def test_symbols_stand_where_the_layout_says(address: str | None, render: Render) -> None:
    template, codes = label_layout("a4-3x8"), codes_for("a4-3x8")
    (page,) = render(draw_sheet(template, codes, address=address))
    assert page.shape == pytest.approx((297.0 * PX_PER_MM, 210.0 * PX_PER_MM), abs=1.0)
    by_text = {found.text: found.position for found in zxingcpp.read_barcodes(page)}
    for (_, box), code in zip(symbol_places("a4-3x8", len(codes)), codes, strict=True):
        corner = by_text[payload(code, address=address)].top_left
        assert corner.x / PX_PER_MM == pytest.approx(box.left, abs=0.3)
        assert corner.y / PX_PER_MM == pytest.approx(box.top, abs=0.3)


def test_a_corrected_print_is_larger_by_the_scale(render: Render) -> None:
    template, codes = label_layout("a4-3x8"), codes_for("a4-3x8")
    (page,) = render(draw_sheet(template, codes, scale=1.02))
    middle = Box(105.0, 148.5, 0.0, 0.0)
    for _, box in symbol_places("a4-3x8", len(codes)):
        moved = Box(
            middle.left + (box.left - middle.left) * 1.02,
            middle.top + (box.top - middle.top) * 1.02,
            box.width * 1.02,
            box.height * 1.02,
        )
        assert black_extent_mm(cut(page, moved, rim_mm=3.0)) == pytest.approx((25.5, 25.5), abs=0.1)


@pytest.mark.parametrize("name", [*SHEETS, *MATS])
def test_the_check_line_has_its_length(name: str, render: Render) -> None:
    template = mat_layout(name) if name in MATS else label_layout(name)
    pdf = draw_mat(template) if name in MATS else draw_sheet(template, codes_for(name))
    page, check = render(pdf)[0], template.check
    strip = Box(check.line_left_mm, check.line_top_mm, check.line_mm, 1.5)
    assert black_extent_mm(cut(page, strip, rim_mm=0.9))[0] == pytest.approx(check.line_mm, abs=0.1)
    if check.square_mm:
        square = Box(check.square_left_mm, check.square_top_mm, check.square_mm, check.square_mm)
        assert black_extent_mm(cut(page, square, rim_mm=1.0)) == pytest.approx((10.0, 10.0), abs=0.1)


@pytest.mark.parametrize("name", [*SHEETS, *MATS])
def test_pages_carry_their_words(name: str, tmp_path: Path) -> None:
    if name in MATS:
        text = text_of(draw_mat(mat_layout(name)), tmp_path)
        assert mat_layout(name).title in text
    else:
        text = text_of(draw_sheet(label_layout(name), [make("T", 42), make("B", 7)]), tmp_path)
        for words in ("T-0042-E", "Tray", "Bag", "25.0 mm"):
            assert words in text
    assert "Print at 100 %, not fit to page" in text


@pytest.mark.parametrize("name", MATS)
def test_opencv_finds_the_four_markers_at_the_corners_of_the_field(name: str, render: Render) -> None:
    template = mat_layout(name)
    (page,) = render(draw_mat(template))
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    corners, numbers, _ = cv2.aruco.ArucoDetector(dictionary, settings).detectMarkers(page)
    # Pixel centres count as whole numbers there, page edges here: half a pixel between them.
    found = {
        int(number): (quad[0] + 0.5) / PX_PER_MM
        for number, quad in zip(numbers.flatten(), corners, strict=True)
    }
    assert sorted(found) == [0, 1, 2, 3]
    for quad in found.values():
        edges = np.linalg.norm(quad - np.roll(quad, -1, axis=0), axis=1)
        assert edges == pytest.approx(np.full(4, 15.0), abs=0.1)
    field = template.field
    outer = np.array([found[number][number] for number in range(4)])
    expected = np.array(
        [
            (field.left, field.top),
            (field.right, field.top),
            (field.right, field.bottom),
            (field.left, field.bottom),
        ]
    )
    assert outer == pytest.approx(expected, abs=0.1)
    sides = np.linalg.norm(outer - np.roll(outer, -1, axis=0), axis=1)
    assert sides == pytest.approx(np.array([field.width, field.height] * 2), abs=0.1)


@pytest.mark.parametrize("name", MATS)
def test_the_field_between_the_markers_is_blank(name: str, render: Render) -> None:
    template = mat_layout(name)
    (page,) = render(draw_mat(template))
    field, side = template.field, template.marker_mm + 0.2
    across = Box(field.left + side, field.top - 4, field.width - 2 * side, field.height + 8)
    down = Box(field.left - 4, field.top + side, field.width + 8, field.height - 2 * side)
    assert cut(page, across).min() == 255
    assert cut(page, down).min() == 255


@pytest.mark.parametrize("address", [None, ADDRESS])
def test_a_blot_of_a_quarter_of_the_edge_does_not_stop_the_reading(
    address: str | None, render: Render
) -> None:
    template, codes = label_layout("a4-3x8"), codes_for("a4-3x8")
    (page,) = render(draw_sheet(template, codes, address=address))
    for (_, box), code in zip(symbol_places("a4-3x8", len(codes)), codes, strict=True):
        alone = cut(page, box, rim_mm=template.symbol.quiet_mm).copy()
        first, last = round(alone.shape[0] * 0.41), round(alone.shape[0] * 0.41 + 25.0 / 4 * PX_PER_MM)
        alone[first:last, first:last] = 255
        assert [found.text for found in zxingcpp.read_barcodes(alone)] == [payload(code, address=address)]
