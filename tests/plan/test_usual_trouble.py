"""What usually goes wrong: rates by element and check over past jobs, shown only with enough of them."""

from __future__ import annotations

from tests.report.journals import job_of, scenario

from lastbolt.plan.usual_trouble import PastJob, past_job, rates, usual_trouble
from lastbolt.report.verdict import live_findings

GASKET = ("RW PUMP GASKET", "old-seal-or-consumable")


def jobs(bad: int, good: int) -> list[PastJob]:
    worked = frozenset({GASKET[0], "LID"})
    return [PastJob(worked, frozenset({GASKET}))] * bad + [PastJob(worked, frozenset())] * good


def test_two_of_five_is_shown_with_its_rate():
    (trouble,) = usual_trouble(jobs(2, 3))

    assert trouble.sentence == "RW PUMP GASKET: old seal or consumable in 2 of 5 jobs."
    assert trouble.rate == 3 / 25


def test_one_of_ten_and_two_of_two_are_not_shown():
    assert usual_trouble(jobs(1, 9)) == ()
    assert usual_trouble(jobs(2, 0)) == () and len(rates(jobs(2, 0))) == 1


def test_a_near_miss_that_was_cured_counts():
    entries = scenario("S7")
    past = past_job(job_of(entries), [finding for _, finding in live_findings(entries, "job 1")])

    assert ("SENSOR BOLT", "covered-too-early") in past.troubles
    assert {"SENSOR BOLT", "MANIFOLD"} <= past.worked_on


def test_what_is_no_element_of_the_machine_is_left_out():
    entries = scenario("S8")
    past = past_job(job_of(entries), [finding for _, finding in live_findings(entries, "job 1")])

    assert past.troubles == frozenset()


def test_the_worst_comes_first():
    mixed = [*jobs(3, 0), PastJob(frozenset({"LID"}), frozenset({("LID", "hole-empty")}))]

    assert [trouble.element for trouble in rates(mixed)] == ["RW PUMP GASKET", "LID"]
