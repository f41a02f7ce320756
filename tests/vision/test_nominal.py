"""Named sizes of measured parts, and look-alikes in one picture."""

import numpy as np
import pytest

from lastbolt.vision.nominal import look_alikes, nominal
from lastbolt.vision.outcome import SeenPart


def _bolt(length: float | None, thread: str | None = "M6", *, kind: str = "hex_bolt") -> SeenPart:
    return SeenPart(kind, np.zeros((4, 2)), 0, 0.9, length, 10.0, 6.0, thread, 1.4)


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


def test_parts_of_one_size_or_without_a_length_are_no_look_alikes() -> None:
    assert look_alikes([_bolt(20.3), _bolt(19.8), _bolt(20.0)]) is None
    assert look_alikes([_bolt(None, kind="washer"), _bolt(None, kind="washer"), _bolt(20.0)]) is None


def test_two_lengths_are_called_out() -> None:
    found = look_alikes([_bolt(20.0), _bolt(20.1), _bolt(19.9), _bolt(25.0), _bolt(25.1)])
    assert found is not None
    assert (found.sizes, found.numbers) == (("about 20 mm", "about 25 mm"), (3, 2))
    assert "3 of about 20 mm and 2 of about 25 mm" in found.sentence()
