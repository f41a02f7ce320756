"""A fastener type is read from its short way of writing, and written the same way."""

from __future__ import annotations

import pytest

from lastbolt.journal.fastener_type import FastenerType, type_from_text


@pytest.mark.parametrize(
    ("text", "diameter", "pitch", "length", "kind"),
    [
        ("M8x1.25x30", 8, 1.25, 30, "bolt"),
        ("M8x30", 8, None, 30, "bolt"),
        ("M8", 8, None, None, "bolt"),
        ("m8x1,25x30", 8, 1.25, 30, "bolt"),
        ("M12x1.5x12/nut", 12, 1.5, 12, "nut"),
        ("5/16-18x1", 7.938, 1.4111, 25.4, "bolt"),
    ],
)
def test_reads_the_short_way(
    text: str, diameter: float, pitch: float | None, length: float | None, kind: str
) -> None:
    read = FastenerType.model_validate(type_from_text(text))

    assert (read.diameter_mm, read.pitch_mm, read.length_mm, read.kind) == (diameter, pitch, length, kind)


@pytest.mark.parametrize("text", ["M8x1.25x30", "M12x1.5x12/nut", "M8x1.25x30 10.9", "M6"])
def test_writes_what_it_read(text: str) -> None:
    assert str(FastenerType.model_validate(type_from_text(text))) == text


def test_what_is_no_thread_is_a_part_number() -> None:
    assert FastenerType.model_validate(type_from_text("A211-8D")).part_number == "A211-8D"
