"""Reading a torque as typed into the fields of an entry, and the torque sheet of a stored job."""

from __future__ import annotations

import pytest

from lastbolt.actions.record import record_here
from lastbolt.actions.torque import ReadSpec, spec_from_text, torque_sheet_of
from lastbolt.errors import NotFoundError
from lastbolt.torque.unreadable import Unreadable

SOURCE = {"source": "launch engine manual", "revision": "3", "page": "41"}


def read(text: str, **about) -> ReadSpec:
    found = spec_from_text(text, **about)
    assert isinstance(found, ReadSpec), found
    return found


@pytest.mark.parametrize(
    ("text", "unit", "low", "high"),
    [
        ("20-25 Nm", "N·m", 20.0, 25.0),
        ("24 ± 2 Nm", "N·m", 22.0, 26.0),
        ("35 ± 2 lbf ft", "lbf·ft", 44.7420, 50.1653),
        ("900 cN·m ± 100 cN·m", "cN·m", 8.0, 10.0),
        ("4-5 daN·m", "N·m", 40.0, 50.0),
    ],
)
def test_a_range_gives_its_ends_in_newton_metres_and_keeps_its_text(text, unit, low, high):
    found = read(text)

    assert (found.fields["as_written"], found.fields["unit"]) == (text, unit)
    assert (found.fields["min_nm"], found.fields["max_nm"]) == pytest.approx((low, high), abs=1e-4)
    assert found.warnings == ()


def test_one_figure_gets_a_tolerance_that_is_said_to_be_assumed():
    """35 lbf·ft = 47.4536 N·m: 1 lbf·ft = 1.355 817 948 N·m (NIST SP 811, from memory)."""
    found = read("35 lbf ft")

    assert found.fields["min_nm"] == pytest.approx(47.4536 * 0.95, abs=1e-3)
    assert found.fields["max_nm"] == pytest.approx(47.4536 * 1.05, abs=1e-3)
    assert "±5 % is assumed" in found.warnings[0]
    assert read("40 Nm", tolerance_percent=10).fields["max_nm"] == pytest.approx(44)
    assert read("40 Nm", tolerance_percent=10).warnings == ()


def test_two_units_are_compared_and_the_first_counts():
    agreeing, odd = read("10-11 N·m / 7-8 lbf·ft"), read("10-11 N·m / 88-97 lbf·ft")

    assert agreeing.warnings == ()
    assert "lbf·in written as lbf·ft?" in odd.warnings[0]
    assert agreeing.fields["min_nm"] == odd.fields["min_nm"] == 10.0


def test_a_thread_makes_an_odd_value_warn_and_changes_nothing():
    plain, compared = read("100-110 N·m"), read("100-110 N·m", thread="M6", class_name="8.8")

    assert "cannot be right for M6 8.8" in compared.warnings[0]
    assert compared.fields == plain.fields
    assert read("9-10 N·m", thread="M6", class_name="8.8").warnings == ()


def test_a_thread_or_class_that_cannot_be_read_is_said_and_the_value_still_reads():
    assert "was not compared with a thread" in read("9-10 N·m", thread="M6.5").warnings[0]
    assert "no property class known here" in read("9-10 N·m", thread="M6", class_name="7.7").warnings[0]


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("35", "has no unit"),
        ("", "Nothing is written"),
        ("tight", "cannot be read"),
        ("1,234 Nm", "may be a decimal or a thousand"),
        ("9000 N·m", "lies outside 0.1 to 3000 N·m"),
        ("0.02-0.3 N·m", "lies outside 0.1 to 3000 N·m"),
        ("9" * 200 + " Nm", "more than 120 characters"),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence_with_a_way_out(text, reason):
    found = spec_from_text(text)

    assert isinstance(found, Unreadable) and reason in found.reason and not found


def test_the_fields_make_an_entry_and_its_sheet_says_what_was_typed(shop, wired):
    record_here(
        shop, "job 1", "job-opened", by="Ana", fields={"machine": "Launch", "title": "Seal", "level": 3}
    )
    found = read("35 ± 2 lbf ft")
    record_here(shop, "job 1", "spec-entered", by="Ana", fields={"set": "LID", **found.fields, **SOURCE})
    sheet = torque_sheet_of(wired.bench, wired.journal, "job 1")

    assert (sheet.job, sheet.machine) == ("job 1", "Launch")
    assert (sheet.rows[0].as_written, sheet.rows[0].warnings) == ("35 ± 2 lbf ft", ())
    assert sheet.on == shop.clock().date()


def test_a_job_that_is_not_here_is_said_to_be_missing(wired):
    with pytest.raises(NotFoundError, match="nowhere"):
        torque_sheet_of(wired.bench, wired.journal, "nowhere")
