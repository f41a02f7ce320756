from xml.etree import ElementTree

import pytest

from lastbolt.torque.adapter import Adapter
from lastbolt.torque.adapter_drawing import draw_adapter
from lastbolt.torque.drawing import draw_pattern
from lastbolt.torque.pattern import Pattern, circle_pattern, free_pattern, grid_pattern
from lastbolt.torque.sequence import SUGGESTION_MARK, suggest_order

SVG = "{http://www.w3.org/2000/svg}"
PATTERNS = [
    circle_pattern(1),
    circle_pattern(12),
    circle_pattern(120),
    grid_pattern(2, 5),
    free_pattern([(0.1, 0.2)] * 2),
]


def texts(picture: str) -> list[str]:
    return [node.text or "" for node in ElementTree.fromstring(picture).iter(f"{SVG}text")]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_every_hole_and_its_turn_stand_in_the_picture(pattern: Pattern) -> None:
    order = suggest_order(pattern)
    found = texts(draw_pattern(pattern, order=order))
    for turn, hole in enumerate(order, start=1):
        assert str(hole) in found
        assert f"{turn}." in found


def test_done_holes_are_filled_squares_and_open_ones_circles() -> None:
    picture = ElementTree.fromstring(draw_pattern(grid_pattern(1, 5), done={2, 3}))
    filled = [node for node in picture.iter(f"{SVG}rect") if node.get("fill") == "#000"]
    circles = list(picture.iter(f"{SVG}circle"))
    assert len(filled) == 2 + 1  # one in the legend
    assert len(circles) == 3 + 1
    white = [node.text for node in picture.iter(f"{SVG}text") if node.get("fill") == "#fff"]
    assert white == ["2", "3"]


def test_the_next_hole_has_a_double_ring() -> None:
    before = draw_pattern(circle_pattern(4), order=(1, 3, 2, 4), done={1, 3}).count("<circle")
    after = draw_pattern(circle_pattern(4), order=(1, 3, 2, 4), done={1, 2, 3, 4}).count("<circle")
    assert before - after == 3  # two open marks and the outer ring


def test_it_says_how_many_are_done_and_escapes_the_title() -> None:
    picture = draw_pattern(circle_pattern(4), done={1}, title='Cover <A> & "B"')
    ElementTree.fromstring(picture)
    assert "Cover &lt;A&gt; &amp; &quot;B&quot;: 1 of 4 done" in picture


@pytest.mark.parametrize("picture", [draw_pattern(p, order=suggest_order(p), done={1}) for p in PATTERNS]
                         + [draw_adapter(Adapter(300, 80, angle), 70) for angle in (0, 45, 90, 135, 180)])  # fmt: skip
def test_pictures_are_black_and_white_without_ids_and_stay_inside(picture: str) -> None:
    root = ElementTree.fromstring(picture)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    for node in root.iter():
        assert "id" not in node.attrib
        assert node.get("fill") in (None, "#000", "#fff", "none")
        assert node.get("stroke") in (None, "#000", "#fff")
        for name, most in (("x", width), ("cx", width), ("y", height), ("cy", height)):
            assert 0 <= float(node.get(name, "0")) <= most


def test_a_note_stands_below() -> None:
    assert SUGGESTION_MARK in texts(draw_pattern(circle_pattern(4), note=SUGGESTION_MARK))
