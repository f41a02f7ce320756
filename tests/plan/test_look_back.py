"""Looking back over all jobs for a bad wrench or an old value, the gravest first."""

from __future__ import annotations

from datetime import timedelta

from tests.report.journals import Written

from lastbolt.plan.look_back import pulled_to, pulled_with
from lastbolt.state.job import Job


def flange(
    job: str,
    *,
    wrench: str = "W2",
    critical: bool = False,
    released: bool = False,
    source: str = "manual p. 3",
) -> Written:
    w = Written(job=job, machine=f"machine of {job}").add(
        "set-described", set="FLANGE", n=2, critical=critical
    )
    w.add("spec-entered", set="FLANGE", min_nm=20, max_nm=25, source=source)
    w.add("fasteners-tightened", set="FLANGE", value_nm=22, wrench=wrench)
    return w.add("release-signed") if released else w


def names(jobs: list[Written], **more: object) -> list[str]:
    return [joint.job for joint in pulled_with([job.state for job in jobs], "W2", **more)]


def test_finds_every_joint_of_a_wrench_released_or_not_the_gravest_first():
    jobs = [
        flange("plain"),
        flange("gone", released=True),
        flange("critical", critical=True),
        flange("other", wrench="W1"),
    ]

    assert names(jobs) == ["critical", "gone", "plain"]


def test_what_was_pulled_before_the_last_good_day_stands():
    job = flange("early")
    pulled = job.state.sets["FLANGE"].tightened[0].act.time

    assert names([job], since=pulled) == ["early"]
    assert names([job], since=pulled + timedelta(seconds=1)) == []


def test_what_was_undone_or_pulled_again_with_another_is_not_in_doubt():
    undone = flange("undone").add("fasteners-loosened", set="FLANGE", n=2)
    again = flange("again").add("fasteners-tightened", set="FLANGE", value_nm=22, wrench="W1")

    assert names([undone, again]) == []


def test_says_where_it_is_and_whether_it_has_gone():
    (joint,) = pulled_with([flange("gone", released=True).state], "W2")

    assert joint.sentence == "machine of gone, gone (released): FLANGE, hole 1, 2, pulled with W2."


def superseded(source: str = "manual p. 3") -> Job:
    return flange("here", source=source).add("spec-superseded", set="FLANGE", by_source="bulletin 4").state


def test_an_old_value_is_looked_for_in_every_job_with_its_source():
    here = superseded()
    same, other = flange("same", released=True).state, flange("other", source="another manual").state
    found = pulled_to([here, same, other], here.sets["FLANGE"])

    assert [joint.job for joint in found] == ["same", "here"]
    assert found[0].why == "pulled to manual p. 3, superseded by bulletin 4"


def test_a_value_without_a_source_is_nobody_else_s():
    job = Written().add("spec-entered", set="FLANGE", min_nm=5, max_nm=7).state

    assert pulled_to([job], job.sets["FLANGE"]) == ()
