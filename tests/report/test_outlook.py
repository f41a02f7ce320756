"""The outlook of a job on the acceptance scenarios: what is owed is listed, nothing is passed."""

from __future__ import annotations

from tests.report.journals import job_of, scenario

from lastbolt.journal import effective, in_order
from lastbolt.report.outlook import outlook_text


def outlook(name: str, until: str) -> str:
    entries = scenario(name, until)
    return outlook_text(job_of(entries), effective(in_order(entries)), ())


def test_what_must_be_new_is_to_order_while_the_machine_is_apart():
    text = outlook("S1", "1 14:02")

    assert "To order:\n" in text
    assert "IM GASKET" in text and "RW GASKET" in text


def test_the_question_is_always_asked():
    assert "Is anything apart, opened, drained or brought in that is not on this list?" in outlook(
        "C0", "1 13:00"
    )


def test_a_finished_job_has_nothing_to_order():
    assert "To order: nothing." in outlook("C0", "1 13:00")


def test_time_left_says_that_it_is_an_estimate():
    assert outlook("S7", "1 08:40").splitlines()[0].endswith("An estimate.")
