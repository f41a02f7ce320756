"""Where a closer look is taken: around each trace, whole, and not twice."""

import numpy as np
import pytest

from lastbolt.vision.closer import Place, Scene, Way, glimpse, places
from lastbolt.vision.instances import Instance
from lastbolt.vision.network import Map

HEIGHT, WIDTH = 600, 900


def _scene(printed: list[np.ndarray] | None = None) -> Scene:
    return Scene(np.zeros((HEIGHT, WIDTH, 3), np.uint8), printed or [], None)


def _traces(*spots: tuple[int, int], strength: float = 0.1) -> Map:
    """A mask with a patch of 4 x 4 cells at each (x, y) in pixels."""
    mask = np.zeros((HEIGHT // 2, WIDTH // 2), np.float32)
    for k, (x, y) in enumerate(spots):
        mask[y // 2 : y // 2 + 4, x // 2 : x // 2 + 4] = strength + 0.01 * k
    return mask


@pytest.mark.parametrize("at", [(0, 0), (892, 592), (450, 300), (892, 0)])
def test_a_place_holds_the_trace_and_lies_within_the_picture(at: tuple[int, int]) -> None:
    (place,) = places(_scene(), _traces(at), [])
    left, top, right, bottom = place
    assert left <= at[0] and at[0] + 8 <= right and top <= at[1] and at[1] + 8 <= bottom
    assert min(left, top) >= 0 and right <= WIDTH and bottom <= HEIGHT
    assert left % 2 == top % 2 == 0 and (right - left, bottom - top) == (224, 224)


def test_traces_near_each_other_share_a_place_and_distant_ones_do_not() -> None:
    assert len(places(_scene(), _traces((300, 300), (340, 330)), [])) == 1
    assert len(places(_scene(), _traces((100, 100), (700, 500)), [])) == 2


def test_no_more_than_six_places_and_the_strongest_first() -> None:
    spots = [(x, y) for x in (20, 300, 600, 860) for y in (20, 560)]
    taken = places(_scene(), _traces(*spots), [])
    assert len(taken) == 6 and _holds(taken[0], spots[-1]) and not any(_holds(p, spots[0]) for p in taken)


def _holds(place: Place, at: tuple[int, int]) -> bool:
    return place[0] <= at[0] < place[2] and place[1] <= at[1] < place[3]


def test_a_trace_on_a_printed_symbol_is_no_place_to_look_at() -> None:
    square = np.array([[280.0, 280], [340, 280], [340, 340], [280, 340]])
    assert places(_scene([square]), _traces((300, 300)), []) == []


def test_what_the_edge_of_a_place_cuts_off_is_left_out_but_not_at_the_pictures_edge() -> None:
    def find(image: np.ndarray, printed: list[np.ndarray], field: None) -> tuple[Map, list[Instance]]:
        at = np.array([6.0, 100.0])
        cells = np.array([[50, 3], [51, 4]])
        one = Instance(at, cells, 0.7, 0.9, 1.0, np.ones(6, np.float32), 0.0, at, at, 1.0, 1.0, 1.0)
        return np.zeros((112, 112), np.float32), [one]

    inner = glimpse(find, _scene(), (300, 200, 524, 424), Way((1, 1)))
    outer = glimpse(find, _scene(), (0, 200, 224, 424), Way((1, 1)))
    assert inner.found == [] and outer.found[0].centre == pytest.approx([6.0, 300.0])
