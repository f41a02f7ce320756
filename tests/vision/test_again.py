"""What two looks of four agree on counts; drawn answers stand for the network's."""

from itertools import combinations

import numpy as np
import pytest

from lastbolt.vision.again import Agreed, is_plain, look_again
from lastbolt.vision.closer import Scene
from lastbolt.vision.instances import Instance
from lastbolt.vision.network import Map

HEIGHT, WIDTH = 400, 500
AT = np.array([300.0, 122.0])
LOOKS = ("first", "turned", "mirrored", "enlarged")
Looks = dict[str, float]


def _numbered() -> np.ndarray:
    """A picture whose pixels say where they lie: column and row by twos."""
    rows, cols = np.mgrid[:HEIGHT, :WIDTH] // 2
    return np.dstack([cols, rows, np.zeros_like(rows)]).astype(np.uint8)


def _seen(
    shape: tuple[int, ...], at: np.ndarray, strength: float, heat: float = 0.7
) -> tuple[Map, list[Instance]]:
    """A part of 12 x 12 cells with its middle at `at`: found from 0.5 on, a mere trace below."""
    mask = np.zeros((-(-shape[0] // 2), -(-shape[1] // 2)), np.float32)
    row, col = (round(v / 2) for v in at[::-1])
    mask[row - 6 : row + 6, col - 6 : col + 6] = strength
    cells = np.argwhere(mask > 0)
    kinds = np.eye(6, dtype=np.float32)[4]
    one = Instance(at, cells, heat, 0.95, 1.0, kinds, 0.0, at + 5.0, at - 5.0, 30.0, 16.0, 1.0)
    return mask, [one] if strength >= 0.5 else []


def _shown(image: np.ndarray) -> tuple[str, np.ndarray]:
    """Which look a picture of a place is, and where AT lies in it."""
    x, y = AT - 2.0 * image[..., :2].astype(np.float64).min((0, 1))
    if image.shape[0] > 224:
        return "enlarged", (np.array([x, y]) + 0.5) * 1.15 - 0.5
    assert image[0, 0, 0] > image[0, -1, 0]
    x = image.shape[1] - 1 - x
    if image[0, 0, 1] > image[-1, 0, 1]:
        return "turned", np.array([x, image.shape[0] - 1 - y])
    return "mirrored", np.array([x, y])


def _looked(strengths: Looks, heat: float = 0.7) -> tuple[Agreed, list[str], Map]:
    """What is made of these strengths of the looks; and which closer looks were taken."""
    taken: list[str] = []

    def find(
        image: np.ndarray, printed: list[np.ndarray], field: np.ndarray | None
    ) -> tuple[Map, list[Instance]]:
        name, at = _shown(image)
        taken.append(name)
        assert printed[0][0] == pytest.approx(at) and field is not None and field[0] == pytest.approx(at)
        return _seen(image.shape[:2], at, strengths.get(name, 0.0), heat)

    first = _seen((HEIGHT, WIDTH), AT, strengths.get("first", 0.0), heat)
    printed = np.tile(AT, (4, 1))
    return look_again(find, Scene(_numbered(), [printed], printed), first), taken, first[0]


def test_where_nothing_at_all_is_seen_no_closer_look_is_taken() -> None:
    agreed, taken, _ = _looked({})
    assert (agreed.kept, agreed.maybe, taken) == ([], 0, [])


@pytest.mark.parametrize("looks", list(combinations(LOOKS, 2)))
def test_what_two_looks_see_is_counted_with_a_doubt_and_put_in_its_place(looks: tuple[str, str]) -> None:
    agreed, taken, mask = _looked(dict.fromkeys(LOOKS, 0.1) | dict.fromkeys(looks, 0.9))
    (one,) = agreed.kept
    assert taken == ["turned", "mirrored", "enlarged"] and agreed.by_all == [False]
    assert one.centre == pytest.approx(AT) and one.under == pytest.approx(AT + 5.0 * _sign(looks), abs=1e-6)
    assert one.cells.mean(0) * 2 == pytest.approx(AT[::-1], abs=2.5)
    assert mask[tuple(one.cells.T)].min() > 0.85


def _sign(looks: tuple[str, str]) -> np.ndarray:
    """The drawn part points to the lower right in each look; turned back it points elsewhere."""
    ways = {"first": (1, 1), "turned": (-1, -1), "mirrored": (-1, 1)}
    return np.array(ways[next(look for look in LOOKS if look in looks)])


def test_what_three_looks_see_is_counted_without_a_doubt() -> None:
    agreed, _, _ = _looked({"first": 0.9, "turned": 0.9, "mirrored": 0.9})
    assert (len(agreed.kept), agreed.by_all) == (1, [True])


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(("heat", "maybe"), [(0.7, 1), (0.42, 0)])
def test_what_one_look_alone_sees_is_told_if_it_is_seen_well_and_let_go_if_not(
    look: str, heat: float, maybe: int
) -> None:
    agreed, _, _ = _looked(dict.fromkeys(LOOKS, 0.04) | {look: 0.9}, heat)
    assert (agreed.kept, agreed.maybe) == ([], maybe)


def test_what_one_look_sees_very_strongly_is_counted_with_a_doubt() -> None:
    agreed, _, _ = _looked({"first": 0.9}, 0.85)
    assert (len(agreed.kept), agreed.by_all, agreed.maybe) == (1, [False], 0)


@pytest.mark.parametrize(("heat", "trace", "plain"), [(0.9, 0.0, True), (0.7, 0.0, False), (0.9, 0.1, False)])
def test_one_look_is_enough_for_strong_parts_alone_without_a_trace_of_more(
    heat: float, trace: float, plain: bool
) -> None:
    mask, found = _seen((HEIGHT, WIDTH), AT, 0.9, heat)
    mask[-5:, -5:] = trace
    assert is_plain(mask, found) is plain
