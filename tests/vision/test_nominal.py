"""Named sizes of measured parts, and look-alikes in one picture."""

import numpy as np
import pytest

from lastbolt.vision.nominal import look_alikes, nominal
from lastbolt.vision.outcome import SeenPart


def _bolt(
    length: float | None, thread: str | None = "M6", *, kind: str = "hex_bolt", sure: float = 0.9
) -> SeenPart:
    return SeenPart(kind, np.zeros((4, 2)), 0, sure, length, 10.0, 6.0, thread, 1.4)


@pytest.mark.parametrize(("measured", "named"), [(9.2, 10), (13.1, 12), (22.4, 20), (22.6, 25), (58.0, 60)])
def test_the_nearest_preferred_length_is_named(measured: float, named: int) -> None:
    assert nominal(_bolt(measured)).length_mm == named


def test_a_length_between_two_steps_is_less_sure_than_one_on_a_step() -> None:
    assert nominal(_bolt(30.0)).length_sure > 0.99
    assert nominal(_bolt(32.5)).length_sure == pytest.approx(0.5, abs=0.01)


def test_the_chance_agrees_with_drawn_samples() -> None:
    """Checked against numpy's own normal numbers: true lengths about 41.2 mm, plus or minus 3 mm."""
    part = SeenPart("hex_bolt", np.zeros((4, 2)), 0, 0.9, 41.2, 10.0, 6.0, "M6", 3.0)
    drawn = np.random.default_rng(1).normal(41.2, 1.5, 200_000)
    assert nominal(part).length_sure == pytest.approx(np.mean(np.abs(drawn - 40) < 2.5), abs=0.005)


def test_spanners_come_from_the_table_of_heads_and_an_unknown_thread_has_none() -> None:
    assert 10.0 in nominal(_bolt(20.0)).spanners_mm
    assert nominal(_bolt(20.0, None)).spanners_mm == ()
    assert nominal(_bolt(None)).length_mm is None


def test_parts_of_one_size_are_no_look_alikes() -> None:
    assert look_alikes([_bolt(20.3), _bolt(19.8), _bolt(20.0)]) == ()


def test_a_lone_odd_reading_does_not_cry_wolf() -> None:
    assert look_alikes([_bolt(20.3), _bolt(19.8), _bolt(25.1)]) == ()


def test_doubtful_parts_and_things_that_are_no_bolts_are_left_out() -> None:
    doubtful = [_bolt(25.0, sure=0.3), _bolt(25.2, sure=0.3)]
    washers = [_bolt(None, kind="washer"), _bolt(None, kind="washer")]
    between = [_bolt(22.5), _bolt(22.4)]
    assert look_alikes([_bolt(20.0), _bolt(20.1), *doubtful, *washers, *between]) == ()


def test_two_lengths_of_one_thread_are_called_out() -> None:
    (found,) = look_alikes([_bolt(20.0), _bolt(20.1), _bolt(19.9), _bolt(25.0), _bolt(25.1)])
    assert (found.what, found.sizes, found.numbers) == ("length", ("20 mm", "25 mm"), (3, 2))
    assert "3 x 20 mm and 2 x 25 mm" in found.sentence()


def test_two_threads_of_one_length_are_called_out() -> None:
    (found,) = look_alikes([_bolt(20.0), _bolt(20.1), _bolt(20.0, "M5"), _bolt(20.2, "M5")])
    assert (found.what, set(found.sizes)) == ("thread", {"M5", "M6"})
