"""A photo without a label says nothing of its scale: the width of the scene is found from the parts themselves.

The two close-ups are cut out of a development photo (seed 100, picture 1) that shows the same bolt with its label.
"""

from pathlib import Path

import cv2
import numpy as np
import pytest

from lastbolt.vision.count import count_parts
from lastbolt.vision.outcome import SeenPart
from lastbolt.vision.unscaled import FIELDS_MM, USUAL_MM, WIDEST_MM, likely_field

PHOTOS = Path(__file__).parent / "photos"


def part_at(x: float, size: float = 40.0, sure: float = 0.9) -> SeenPart:
    corners = np.array([[x, 0.0], [x + size, 0.0], [x + size, size], [x, size]])
    return SeenPart("hex_bolt", corners, None, sure)


def test_the_same_part_at_two_widths_outweighs_many_that_one_width_alone_sees() -> None:
    bolt = part_at(100)
    thread = [part_at(500 + 10 * k, size=8) for k in range(30)]
    seen = {90.0: [bolt], 130.0: [bolt], 390.0: thread}
    assert likely_field(lambda field: seen.get(field, [])) in (90.0, 130.0)


def test_of_widths_that_agree_the_one_that_sees_more_is_taken() -> None:
    few, many = [part_at(100)], [part_at(100), part_at(300), part_at(600)]
    seen = {190.0: few, 270.0: many, 390.0: many}
    assert likely_field(lambda field: seen.get(field, [])) in (270.0, 390.0)


def test_a_floor_where_nothing_is_seen_has_the_usual_width() -> None:
    assert likely_field(lambda field: []) == USUAL_MM


def test_what_one_width_alone_sees_is_looked_at_there_rather_than_called_empty() -> None:
    assert likely_field(lambda field: [part_at(10)] if field == 65.0 else []) == 65.0


def test_the_widest_is_read_only_where_a_wide_one_is_in_question() -> None:
    asked = []

    def read(field: float) -> list[SeenPart]:
        asked.append(field)
        return [part_at(100)] if field in (270.0, 390.0) else []

    likely_field(read)
    assert asked == [*FIELDS_MM, WIDEST_MM]


def test_a_close_up_does_not_ask_for_the_widest() -> None:
    asked = []

    def read(field: float) -> list[SeenPart]:
        asked.append(field)
        return [part_at(100)] if field < 100 else []

    likely_field(read)
    assert asked == list(FIELDS_MM)


@pytest.mark.parametrize("name", ["bolt_close_up.png", "bolt_closer_up.png"])
def test_the_threads_of_a_bolt_near_by_are_not_taken_for_many_parts(name: str) -> None:
    small = cv2.cvtColor(cv2.imread(str(PHOTOS / name)), cv2.COLOR_BGR2RGB)
    near = cv2.resize(small, (1200, 900), interpolation=cv2.INTER_CUBIC)
    count = count_parts(np.ascontiguousarray(near), None, []).count
    assert (count.low, count.count, count.high) == (1, 1, 1)
