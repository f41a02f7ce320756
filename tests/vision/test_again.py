"""What two looks of three agree on counts; drawn answers stand for the network's."""

import numpy as np
import pytest

from lastbolt.vision.again import Agreed, Scene, is_plain, look_again
from lastbolt.vision.instances import Instance
from lastbolt.vision.network import Map

HEIGHT, WIDTH = 200, 300
AT = np.array([80.0, 60.0])
Looks = dict[str, float]


def _seen(
    shape: tuple[int, int], at: np.ndarray, strength: float, heat: float = 0.7
) -> tuple[Map, list[Instance]]:
    """A part of 12 x 12 cells with its middle at `at`: found from 0.5 on, a mere trace below."""
    mask = np.zeros((shape[0] // 2, shape[1] // 2), np.float32)
    row, col = (round(v / 2) for v in at[::-1])
    mask[row - 6 : row + 6, col - 6 : col + 6] = strength
    cells = np.argwhere(mask > 0)
    kinds = np.eye(6, dtype=np.float32)[4]
    one = Instance(at, cells, heat, 0.95, 1.0, kinds, 0.0, at + 5.0, at - 5.0, 30.0, 16.0, 1.0)
    return mask, [one] if strength >= 0.5 else []


def _looked(strengths: Looks) -> tuple[Agreed, list[str], Map]:
    """`strengths` of the looks `first`, `small` and `turned`; and which looks were taken."""
    taken: list[str] = []

    def find(
        image: np.ndarray, printed: list[np.ndarray], field: np.ndarray | None
    ) -> tuple[Map, list[Instance]]:
        name = "turned" if image.shape[0] == HEIGHT else "small"
        taken.append(name)
        assert len(printed) == 1
        edge = np.array([WIDTH - 1.0, HEIGHT - 1.0])
        at = edge - AT if name == "turned" else AT * image.shape[1] / WIDTH
        return _seen(image.shape[:2], at, strengths[name])

    first = _seen((HEIGHT, WIDTH), AT, strengths["first"])
    scene = Scene(np.zeros((HEIGHT, WIDTH, 3), np.uint8), [np.zeros((4, 2))], None)
    return look_again(find, scene, first), taken, first[0]


@pytest.mark.parametrize("strength", [0.0, 0.9])
def test_two_looks_that_agree_are_enough(strength: float) -> None:
    agreed, taken, _ = _looked({"first": strength, "small": strength, "turned": 0.0})
    assert taken == ["small"]
    assert (len(agreed.kept), agreed.maybe) == (int(strength > 0), 0)
    assert all(agreed.by_all)


def test_what_two_other_looks_see_is_put_back_in_its_place() -> None:
    agreed, taken, mask = _looked({"first": 0.1, "small": 0.9, "turned": 0.9})
    assert taken == ["small", "turned"] and agreed.by_all == [False]
    (one,) = agreed.kept
    assert one.centre == pytest.approx(AT) and one.under == pytest.approx(AT - 5.0)
    assert one.cells.mean(0) * 2 == pytest.approx(AT[::-1], abs=2.5)
    assert mask[tuple(one.cells.T)].min() == pytest.approx(0.9)


@pytest.mark.parametrize(("trace", "maybe"), [(0.0, 0), (0.1, 0), (0.3, 1)])
@pytest.mark.parametrize("look", ["first", "small", "turned"])
def test_what_one_look_alone_sees_is_let_go_unless_another_has_a_trace(
    look: str, trace: float, maybe: int
) -> None:
    if look == "turned" and trace == 0.0:
        trace = 0.08  # else the first two looks settle it, and there is no third
    strengths = dict.fromkeys(("first", "small", "turned"), trace) | {look: 0.9}
    agreed, taken, _ = _looked(strengths)
    assert taken == ["small", "turned"]
    assert (agreed.kept, agreed.maybe) == ([], maybe)


@pytest.mark.parametrize(("heat", "trace", "plain"), [(0.9, 0.0, True), (0.7, 0.0, False), (0.9, 0.1, False)])
def test_one_look_is_enough_for_strong_parts_alone_without_a_trace_of_more(
    heat: float, trace: float, plain: bool
) -> None:
    mask, found = _seen((HEIGHT, WIDTH), AT, 0.9, heat)
    mask[-5:, -5:] = trace
    assert is_plain(mask, found) is plain


def test_a_floor_on_which_nothing_is_seen_is_always_looked_at_again() -> None:
    assert not is_plain(np.zeros((HEIGHT // 2, WIDTH // 2), np.float32), [])
