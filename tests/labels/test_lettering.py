"""Letters made to fit."""

import pytest

from lastbolt.label_code import Kind, make, shown
from lastbolt.labels.layout import label_parts
from lastbolt.labels.lettering import TIGHTEST, fit, width_mm

from .layouts import SHEETS, label_layout


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("kind", list(Kind))
def test_codes_of_four_digits_keep_8_mm_on_every_layout(name: str, kind: Kind) -> None:
    template = label_layout(name)
    room = label_parts(template).code.width
    for number in range(1, 9999, 97):
        fitted = fit(shown(make(kind, number)), room, height_mm=template.words.code_mm)
        assert fitted.height_mm >= 8.0


def test_text_is_narrowed_first_and_made_smaller_last() -> None:
    natural = width_mm("B-0042-X", 8.0, bold=True)
    assert fit("B-0042-X", natural, height_mm=8.0).squeeze == pytest.approx(1.0)
    narrowed = fit("B-0042-X", natural * 0.7, height_mm=8.0)
    assert (narrowed.height_mm, narrowed.squeeze) == (8.0, pytest.approx(0.7))
    smaller = fit("B-0042-X", natural * TIGHTEST / 2, height_mm=8.0)
    assert (smaller.height_mm, smaller.squeeze) == (pytest.approx(4.0), TIGHTEST)
