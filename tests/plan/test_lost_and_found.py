"""Lost here and left over there: offered when type and day fit, between different jobs, never as proof."""

from __future__ import annotations

from tests.report.journals import Written

from lastbolt.plan.lost_and_found import offers, offers_of
from lastbolt.state.job import Job


def losing(type_text: str | None = "M6x1x20") -> Job:
    return Written(job="job 1").add("thing-lost", loss="L1", what="a screw", type=type_text).state


def finding(type_text: str | None = "M6x1x20", after: float = 60, **more: object) -> Job:
    return Written(job="job 2").add("thing-found", find="F3", type=type_text, after=after, **more).state


def test_offers_a_like_piece_of_another_job_on_the_same_day():
    (offer,) = offers([losing(), finding()])

    assert (offer.missing_job, offer.missing, offer.left_job, offer.left) == ("job 1", "L1", "job 2", "F3")
    assert offer.sentence.endswith("Somebody must say so; it is no proof.")


def test_an_offer_closes_nothing():
    lost, found = losing(), finding()
    offers([lost, found])

    assert lost.losses["L1"].closed is None and found.finds["F3"].settled is None


def test_another_type_another_day_or_an_unknown_type_is_not_offered():
    assert offers([losing(), finding("M6x1x40")]) == ()
    assert offers([losing(), finding(after=60 * 30)]) == ()
    assert offers([losing(), finding(None)]) == offers([losing(None), finding()]) == ()


def test_within_one_job_nothing_is_offered():
    job = (
        Written()
        .add("thing-lost", loss="L1", what="a screw", type="M6x1x20")
        .add("thing-found", find="F1", type="M6x1x20")
    )

    assert offers([job.state]) == ()


def test_what_lies_in_a_bag_of_a_job_that_ended_is_offered():
    other = Written(job="job 3").add("set-described", set="LID", n=2, type="M6x1x20")
    other.add("fasteners-removed", set="LID", n=2, to="B7")

    assert offers([losing(), other.state]) == ()

    other.add("job-cancelled", reason="the owner took it home")

    assert [offer.left for offer in offers([losing(), other.state])] == ["B7"]


def test_gives_each_side_its_offers():
    jobs = [losing(), finding(), Written(job="job 9").state]

    assert offers_of(jobs, "job 2") == offers_of(jobs, "job 1") == offers(jobs)
    assert offers_of(jobs, "job 9") == ()
