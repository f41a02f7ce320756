"""What is asked because no record can know it."""

from __future__ import annotations

from tests.report.journals import Written, job_of, scenario

from lastbolt.report.questions import NOT_LISTED, PhotoPair, never_touched, photo_pairs, questions


def lid() -> Written:
    job = Written().add("photo-added", photo="b1", shape="before", element="LID")
    return job.add("part-removed", part="LID").add("part-fitted", part="LID")


def test_always_asks_for_what_is_not_on_the_list():
    assert [q.text for q in questions(job_of(scenario("C0")))][-1] == NOT_LISTED


def test_a_handover_asks_three_questions_first():
    about = [q.about for q in questions(Written().state, "handover")]

    assert about == ["half-done", "dangerous", "not-listed", "anything-else"]
    assert [q.about for q in questions(Written().state)] == ["anything-else"]


def test_a_photo_from_after_is_owed_once_it_is_back():
    assert photo_pairs(lid().state) == (PhotoPair("LID", "b1", None),)

    (owed, _) = questions(lid().state)

    assert (owed.text, owed.subjects) == ("1 photo from after is owed. What differs from before?", ("LID",))


def test_the_after_photo_pays_it_and_one_from_too_early_does_not():
    paid = lid().add("photo-added", photo="a1", shape="after", element="LID")
    early = Written().add("photo-added", photo="b1", shape="before", element="LID")
    early.add("photo-added", photo="a0", shape="after", element="LID")
    early.add("part-removed", part="LID").add("part-fitted", part="LID")

    assert photo_pairs(paid.state) == (PhotoPair("LID", "b1", "a1"),)
    assert photo_pairs(early.state) == (PhotoPair("LID", "b1", None),)


def test_a_rejected_photo_is_no_photo():
    job = (
        lid()
        .add("photo-added", photo="a1", shape="after", element="LID")
        .add("photo-rejected", photo="a1", why="blurred")
    )

    assert photo_pairs(job.state) == (PhotoPair("LID", "b1", None),)


def test_while_it_is_off_nothing_is_owed():
    job = (
        Written()
        .add("photo-added", photo="b1", shape="before", element="LID")
        .add("part-removed", part="LID")
    )

    assert photo_pairs(job.state) == ()


def test_sets_and_connections_owe_photos_too():
    job = Written()
    for name in ("NUTS", "HOSE"):
        job.add("photo-added", photo=f"b {name}", element=name)
    job.add("fasteners-removed", set="NUTS", n=2, to="B1").add("connection-parted", connection="HOSE")
    job.add("fasteners-fitted", set="NUTS", n=1, source="B1").add("connection-made", connection="HOSE")

    assert photo_pairs(job.state) == (PhotoPair("HOSE", "b HOSE", None),)

    job.add("fasteners-fitted", set="NUTS", n=1, source="B1")

    assert PhotoPair("NUTS", "b NUTS", None) in photo_pairs(job.state)


def test_names_the_elements_of_the_plan_that_never_came_up():
    job = Written().add("plan-adopted", plan="pump", version="2", elements=["LID", "HOSE", "STRAP"])
    job.add("part-removed", part="LID")

    assert never_touched(job.state) == ("HOSE", "STRAP")
    assert ("never-touched", ("HOSE", "STRAP")) in [(q.about, q.subjects) for q in questions(job.state)]


def test_asks_what_a_photo_without_a_place_shows():
    job = Written().add("photo-added", photo="ph9")

    assert ("photos-without-a-place", ("ph9",)) in [(q.about, q.subjects) for q in questions(job.state)]
