import re
from pathlib import Path

import numpy as np
import pytest

from lastbolt.actions.quick_look import quick_look
from lastbolt.errors import BadInputError
from lastbolt.vision.nominal import look_alikes
from lastbolt.vision.outcome import SeenPart

PHOTOS = Path(__file__).resolve().parents[2] / "samples" / "photos"


def bolts(*lengths, spread=1.7):
    return [
        SeenPart("hex_bolt", np.zeros((3, 2)), 0, 0.9, length_mm=each, plus_minus_mm=spread)
        for each in lengths
    ]


@pytest.mark.parametrize(
    ("lengths", "words"),
    [
        ((24, 24.5, 29.5, 30.5), "2 of about 24 mm and 2 of about 30 mm"),
        ((30, 40), "1 of about 30 mm and 1 of about 40 mm"),
        ((16.4, 13.9, 13.1, 11.1), None),
        ((58, 63, 20, 22), None),
        ((25,), None),
        ((), None),
    ],
)
def test_look_alike_lengths_are_told_and_noise_or_far_lengths_are_not(lengths, words):
    alike = look_alikes(bolts(*lengths))
    assert (alike is None) == (words is None)
    assert alike is None or words in alike.sentence()


def test_the_samples_look_alikes_are_called_out_and_its_sets_of_one_kind_are_not(shop):
    """The truth is the manifest's: photo 14 holds M6 screws of two lengths, the others hold one."""
    warned = {}
    for name in ("14-look-alikes-side-by-side", "10-heat-shield-screws", "12-thermostat-housing-bolts"):
        seen = quick_look(shop, (PHOTOS / f"{name}.jpg").read_bytes(), device="a phone")
        warned[name] = seen.warning
        assert all(0 <= share <= 1 for outline in seen.outlines for point in outline for share in point)
        assert len(seen.outlines) == seen.count
    assert [name for name, warning in warned.items() if warning] == ["14-look-alikes-side-by-side"]
    told = re.search(
        r"(\d+) of about (\d+) mm and (\d+) of about (\d+) mm", warned["14-look-alikes-side-by-side"] or ""
    )
    assert told is not None
    few, short, many, long = map(int, told.groups())
    assert (few, many) == (4, 3) and abs(short - 25) <= 1 and abs(long - 30) <= 1


def test_a_look_records_nothing_and_refuses_what_is_no_picture(shop):
    with pytest.raises(BadInputError, match="photo"):
        quick_look(shop, b"<html>", device="a phone")
    assert shop.journal.job_names() == []
