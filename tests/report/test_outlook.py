"""The outlook of a job on the acceptance scenarios: what is owed is listed, nothing is passed."""

from __future__ import annotations

from tests.builders import back, e, out, pulled, set_of, told, value_of
from tests.report.journals import job_of, scenario

from lastbolt.journal import effective, in_order
from lastbolt.plan.time_left import START, Ratio
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


def test_time_left_goes_by_the_shop_s_own_ratios():
    entries = scenario("S7", "1 08:40")
    job, timeline = job_of(entries), effective(in_order(entries))
    slow = {work: Ratio(4 * start.middle, start.spread) for work, start in START.items()}

    assert outlook_text(job, timeline, (), START) == outlook_text(job, timeline, ())
    assert (
        outlook_text(job, timeline, (), slow).splitlines()[0]
        != outlook_text(job, timeline, ()).splitlines()[0]
    )


def test_joints_of_every_job_at_a_superseded_value_are_named():
    pulled_job = told(set_of(2), value_of(), out(2), back(2), pulled(holes=[1, 2]))
    here = told(
        e("job-opened", job="job 2", machine="the loader", title="Again", level=3),
        set_of(2), value_of(), e("spec-superseded", set="LID", by_source="bulletin 4"),
    )  # fmt: skip
    text = outlook_text(here.state, (), [pulled_job.state])

    assert "Pulled to a value of this job that is superseded:\n" in text
    assert "the loader, job 1 (still here): LID, hole 1, 2, pulled to maker's manual p. 12" in text
    assert "superseded: nothing." in outlook_text(pulled_job.state, (), [])
