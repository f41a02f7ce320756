from urllib.parse import quote

import pytest
from tests.web.shop import JOB, NEAT, entry, half_finished, send

from lastbolt.actions.record import record


def test_an_empty_shop_has_an_empty_list(client):
    assert client.get("/api/jobs").json() == []


def test_the_list_counts_what_stands_in_the_way(filled):
    jobs = {job["job"]: job for job in filled.get("/api/jobs").json()}
    assert set(jobs) == {JOB, NEAT}
    assert jobs[JOB]["machine"] == "Harbour launch, inboard engine"
    assert (jobs[JOB]["level"], jobs[JOB]["state"]) == (2, "open")
    findings = filled.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    stops = [finding for finding in findings if finding["severity"] == "stop"]
    assert jobs[JOB]["counts"]["stop"] == len(stops) > 0
    assert jobs[NEAT]["counts"] == {"stop": 0, "decide": 0, "note": 0}


def test_one_job_is_told_as_in_the_list(filled):
    assert filled.get(f"/api/jobs/{JOB}").json() in filled.get("/api/jobs").json()


def test_what_was_not_checked_is_named_and_never_counted_as_passed(filled):
    neat = filled.get(f"/api/jobs/{NEAT}").json()
    assert "torque-missing" in neat["not_checked"]
    assert neat["not_checked"] == filled.get(f"/api/jobs/{NEAT}/findings").json()["not_checked"]


def test_findings_come_worst_first_each_with_words_and_evidence(filled):
    findings = filled.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    order = ["stop", "decide", "note"]
    assert [f["severity"] for f in findings] == sorted((f["severity"] for f in findings), key=order.index)
    tray = next(f for f in findings if f["check"] == "tray-not-empty")
    assert tray["sentence"].endswith(".") and tray["to_do"]
    assert tray["entries"][0]["by"] == "Ana"
    assert tray["entries"][0]["recorded"]["to"] == "T0042E"


def test_a_tray_tells_what_lies_in_it_where_it_lies_and_its_last_photo(filled):
    (tray,) = filled.get(f"/api/jobs/{JOB}/containers").json()
    assert (tray["container"], tray["label"], tray["kind"]) == ("T0042E", "T-0042-E", "tray")
    assert tray["contents"] == [{"n": 6, "set": "pump cover bolts", "type": "M6x1x16", "new": False}]
    assert tray["place"] == "bench by the window"
    assert tray["photos"][0]["shape"] == "tray"


@pytest.mark.parametrize("part", ["", "/findings", "/containers", "/photos", "/entries"])
def test_an_unknown_job_is_answered_in_one_sentence(client, part):
    answer = client.get(f"/api/jobs/nowhere{part}")
    assert (answer.status_code, answer.headers["content-type"]) == (404, "application/problem+json")
    assert "nowhere" in answer.json()["detail"]


@pytest.mark.parametrize("name", ["hull 7/starboard", "50 %", "Bürste #3?", "a.b"])
def test_a_job_may_be_called_anything(client, name):
    address = f"/api/jobs/{quote(name, safe='')}"
    opened = entry("job-opened", 1, job=name, machine="Winch", title="New brake")
    assert client.post(f"{address}/entries", json=[opened]).status_code == 200
    assert client.get(address).json()["job"] == name
    assert client.get(f"{address}/findings").json()["findings"] == []


def test_a_released_job_says_so_and_says_when_it_changed_after(client, app):
    opened = entry("job-opened", 1, machine="Winch", title="New brake")
    signed = entry("release-signed", 2, by="Lee", role="lead", statement="looked at")
    refused = send(client, [opened, signed])
    assert (refused.status_code, refused.json()["detail"][:31]) == (403, "A release is signed at the desk")
    wired = app.state.desk.wired
    record(wired.journal, wired.clock, [opened, signed])
    assert client.get(f"/api/jobs/{JOB}").json()["state"] == "released"
    send(client, half_finished()[4:8])
    assert client.get(f"/api/jobs/{JOB}").json()["state"] == "changed since its release"


@pytest.mark.parametrize(
    ("kind", "fields", "state"),
    [
        ("job-waiting", {"reason": "seal on order"}, "waiting"),
        ("job-cancelled", {"reason": "sold"}, "cancelled"),
    ],
)
def test_a_job_that_rests_or_ended_says_so(client, kind, fields, state):
    opened = entry("job-opened", 1, machine="Winch", title="New brake")
    send(client, [opened, entry(kind, 2, **fields)])
    assert client.get(f"/api/jobs/{JOB}").json()["state"] == state
