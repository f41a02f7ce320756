"""What next, with the findings that stand put first."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.report.what_next import next_text, what_next


def test_what_was_covered_too_early_comes_before_all_else():
    steps = what_next(job_of(scenario("S7", "1 11:44")))

    assert steps.big is not None and (steps.big.kind, steps.big.element) == ("mend", "SENSOR BOLT")
    assert "HEAT SHIELD, then STARTER" in next_text(steps)


def test_mere_open_debts_are_no_faults_to_mend():
    steps = what_next(job_of(scenario("S7", "1 08:40")))

    assert next_text(steps).startswith("Next: Fit 1 fastener of SENSOR BOLT from B9. Fetch B9 (1).")
    assert next_text(steps).count("Or: ") == len(steps.small) <= 3


def test_a_missing_seal_is_brought():
    text = next_text(what_next(job_of(scenario("C0", "1 12:07"))))

    assert "Bring 1 x PUMP GASKET." in text


def test_when_everything_waits_it_says_for_what():
    text = next_text(what_next(Written().add("part-removed", part="HEAD", place="SENT OUT").state))

    assert text == "Nothing can be done now.\nWaits: Put HEAD on. (it is not here (SENT OUT))"


def test_a_finished_job_says_so():
    assert next_text(what_next(job_of(scenario("C0")))) == "Nothing is left to do."


def test_a_critical_set_waits_for_its_second_person_before_it_is_done():
    job = (
        Written()
        .add("set-described", set="HUB", n=2, critical=True)
        .add("fasteners-removed", set="HUB", n=2, to="B1")
    )
    job.add("fasteners-fitted", set="HUB", n=2, source="B1", by="Ana")

    big = what_next(job.state).big

    assert big is not None and (big.kind, big.element) == ("finish", "HUB")
    assert "no second person has looked since" in big.sentence

    job.add("second-checked", elements=["HUB"], by="Ben")

    assert what_next(job.state).big is None
