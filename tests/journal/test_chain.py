"""The hash chain names the first line that was changed, moved, lost or put in."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lastbolt.journal import GENESIS, Line, first_break, seal


def chain(length: int) -> list[Line]:
    lines: list[Line] = []
    for position in range(1, length + 1):
        prev = lines[-1].hash if lines else GENESIS
        entry = {"id": f"entry {position}", "n": position}
        received = f"2026-03-02T08:{position:02}:00Z"
        lines.append(
            Line(
                "job 1",
                position,
                received,
                prev,
                seal(entry, position=position, received=received, prev=prev),
                entry,
            )
        )
    return lines


@pytest.mark.parametrize("length", [0, 1, 5])
def test_a_whole_chain_has_no_break(length: int) -> None:
    assert first_break(chain(length)) is None


@pytest.mark.parametrize("at", range(1, 6))
def test_one_changed_letter_breaks_its_line(at: int) -> None:
    lines = chain(5)
    lines[at - 1] = replace(lines[at - 1], entry={"id": f"entry {at}", "n": 99})

    found = first_break(lines)

    assert found is not None and (found.position, found.entry_id) == (at, f"entry {at}")
    assert "was changed" in found.why


def test_a_changed_line_sealed_anew_breaks_the_next() -> None:
    lines = chain(5)
    forged = {"id": "entry 2", "n": 99}
    lines[1] = replace(
        lines[1], entry=forged, hash=seal(forged, position=2, received=lines[1].received, prev=lines[1].prev)
    )

    found = first_break(lines)

    assert found is not None and found.position == 3
    assert "does not follow" in found.why


def test_a_changed_time_of_arrival_breaks_its_line() -> None:
    lines = chain(3)
    lines[1] = replace(lines[1], received="2026-03-02T09:00:00Z")

    found = first_break(lines)

    assert found is not None and found.position == 2


@pytest.mark.parametrize(
    ("lines", "expected"),
    [(chain(4)[1:], 1), (chain(4)[:1] + chain(4)[2:], 2), (chain(2) + chain(2), 3), (chain(4)[::-1], 1)],
)
def test_a_lost_doubled_or_moved_line_is_named(lines: list[Line], expected: int) -> None:
    found = first_break(lines)

    assert found is not None and f"entry {expected}" in found.why
