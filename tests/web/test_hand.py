import pytest
from tests.web import shop
from tests.web.shop import JOB, entry

RAG = "blue rag"


@pytest.fixture
def job(client):
    shop.send(client, shop.half_finished()).raise_for_status()
    return client


def rests(client, kind: str) -> dict:
    lines = client.get(f"/api/jobs/{JOB}/entries").json()["lines"]
    [found] = [line["entry"]["id"] for line in lines if line["entry"]["kind"] == kind]
    return client.get(f"/api/jobs/{JOB}/entries/{found}/rests").json()


def test_next_names_the_bag_to_fetch_by_its_label_and_where_it_lies(job):
    said = job.get(f"/api/jobs/{JOB}/next").json()
    steps = [said["big"], *said["small"], *said["waiting"]]
    [fit] = [step for step in steps if step["kind"] == "fit"]
    assert fit["fetch"] == [
        {"container": "T0042E", "label": "T-0042-E", "place": "bench by the window", "n": 6}
    ]
    assert said["big"] is not None and said["big"]["waits_for"] == ""
    assert all(step["waits_for"] for step in said["waiting"])


def test_the_start_guard_lists_what_is_open_with_its_photos_and_shows_no_tick(job):
    shown = {"photos": ("rag.jpg", shop.picture("the rag"), "image/jpeg")}
    sha = job.post(f"/api/jobs/{JOB}/photos", files=shown).json()[0]["sha256"]
    shop.send(job, [entry("item-brought-in", 20, item=RAG, opening="pump housing", photos=[sha])])
    said = job.get(f"/api/jobs/{JOB}/start").json()
    assert said["headline"].startswith("DO NOT START: ")
    [rag] = [f for f in said["findings"] if f["subject"] == RAG]
    assert [photo["sha256"] for photo in rag["photos"]] == [sha]
    assert any("Hands" in caution for caution in said["cautions"])


def test_a_job_with_nothing_disturbed_still_says_that_eyes_decide(client):
    shop.send(client, shop.neat()).raise_for_status()
    said = client.get(f"/api/jobs/{shop.NEAT}/start").json()
    assert (said["findings"], said["headline"].endswith("Your eyes decide.")) == ([], True)
    assert said["not_checked"]


def test_taking_over_lists_trays_tags_and_what_the_giver_said(job):
    said = job.get(f"/api/jobs/{JOB}/takeover").json()
    assert said["offered"] is None
    assert said["trays"] == [
        {"container": "T0042E", "label": "T-0042-E", "place": "bench by the window", "n": 6}
    ]
    assert said["tags"] == [{"isolation": "battery", "holder": "Ana", "proven": True}]
    shop.send(job, [entry("handover-offered", 21, dangerous="the sea-cock weeps")])
    offered = job.get(f"/api/jobs/{JOB}/takeover").json()["offered"]
    assert (offered["by"], offered["dangerous"], offered["half_done"]) == ("Ana", "the sea-cock weeps", None)
    shop.send(job, [entry("handover-accepted", 22, by="Ben", containers=["T0042E"])])
    assert job.get(f"/api/jobs/{JOB}/takeover").json()["offered"] is None


def test_what_rests_on_a_bag_is_what_was_done_with_its_pieces_later(job):
    assert [later["kind"] for later in rests(job, "fasteners-removed")["later"]] == []
    later = [
        entry("container-counted", 21, container="T0042E", n=6),
        entry("fasteners-fitted", 22, set="pump cover bolts", n=6, source="T0042E"),
        entry("part-fitted", 23, part="exhaust bend"),
        entry("second-checked", 24, by="Ben", elements=["pump cover bolts"]),
    ]
    shop.send(job, later).raise_for_status()
    said = rests(job, "fasteners-removed")
    assert [each["kind"] for each in said["later"]] == [
        "container-counted", "fasteners-fitted", "second-checked",
    ]  # fmt: skip
    assert said["counts"] is True
    assert "more-than-logged" in {finding["check"] for finding in said["would_come"]}


def test_asking_what_rests_on_an_entry_changes_nothing_and_a_void_one_counts_no_more(job):
    before = job.get(f"/api/jobs/{JOB}/findings").json()
    said = rests(job, "fasteners-removed")
    assert {finding["check"] for finding in said["would_go"]} >= {"tray-not-empty"}
    assert job.get(f"/api/jobs/{JOB}/findings").json() == before
    void = entry("entry-voided", 30, entry=said["entry"]["entry"], reason="wrong tray")
    shop.send(job, [void]).raise_for_status()
    gone = {f["key"] for f in before["findings"]} - {
        f["key"] for f in job.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    }
    assert gone == {finding["key"] for finding in said["would_go"]}
    assert rests(job, "fasteners-removed")["counts"] is False


def test_an_entry_that_is_not_there_gets_a_sentence(job):
    answer = job.get(f"/api/jobs/{JOB}/entries/nothing/rests")
    assert (answer.status_code, "has no entry nothing" in answer.json()["detail"]) == (404, True)


def test_a_lone_bolt_is_offered_the_set_that_misses_one_with_its_reasons(job):
    said = job.get(f"/api/jobs/{JOB}/orphan", params={"diameter_mm": 6.1, "length_mm": 16.4}).json()
    [offer] = said["offers"]
    assert (offer["set"], offer["type"], offer["share"]) == ("pump cover bolts", "M6x1x16", 1.0)
    assert "length 16.4 mm, it has 16" in offer["reasons"]
    assert "holes 1, 2, 3, 4, 5, 6 stand empty" in offer["reasons"]


def test_a_lone_bolt_may_belong_to_another_open_job_but_not_to_a_practice_one(job):
    other, practice = "launch-9", "practice-1"
    for name, more in ((other, {}), (practice, {"practice": True})):
        entries = [
            entry("job-opened", 1, job=name, machine=f"Boat of {name}", title="Cover", **more),
            entry("set-described", 2, job=name, set="strap", n=2, type="M8x1.25x40"),
            entry("fasteners-removed", 3, job=name, set="strap", n=2),
        ]
        shop.send(job, entries).raise_for_status()
    said = job.get(f"/api/jobs/{JOB}/orphan", params={"diameter_mm": 8, "length_mm": 40}).json()
    assert [(offer["job"], offer["set"]) for offer in said["offers"]] == [(other, "strap")]


def test_no_home_is_said_by_an_empty_list_and_nothing_measured_by_a_sentence(job):
    assert job.get(f"/api/jobs/{JOB}/orphan", params={"length_mm": 400}).json()["offers"] == []
    answer = job.get(f"/api/jobs/{JOB}/orphan")
    assert (answer.status_code, "millimetres" in answer.json()["detail"]) == (422, True)


def test_a_photo_without_a_piece_asks_for_another_or_for_measures(job):
    blank = {"photo": ("x.jpg", b"no photo at all", "image/jpeg")}
    answer = job.post(f"/api/jobs/{JOB}/orphan", files=blank)
    assert answer.status_code == 422 and answer.json()["detail"]


def test_a_practice_job_is_marked_and_judged_alone(job):
    opening = entry("job-opened", 1, job="practice-2", machine="stapler", title="Practice", practice=True)
    shop.send(job, [opening]).raise_for_status()
    marked = {listed["job"]: listed["practice"] for listed in job.get("/api/jobs").json()}
    assert marked == {JOB: False, "practice-2": True}
