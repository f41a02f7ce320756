"""The release over the wire: the question, the PIN, what is in the way, the papers, and what makes it fall."""

import subprocess

import pytest
from tests.web.shop import JOB, NEAT, entry, fill, half_finished, neat, send
from tests.web.signing_in import PIN


def asked(client, job=NEAT, **fields):
    return client.post(f"/api/jobs/{job}/release/ask", json={"nothing_else_apart": True, **fields})


def signed(client, job=NEAT, pin=PIN, **fields):
    return client.post(f"/api/jobs/{job}/release/sign", json={"pin": pin, **fields})


@pytest.fixture
def released(client):
    send(client, neat()).raise_for_status()
    asked(client, scope="all of it").raise_for_status()
    return signed(client)


def test_a_clean_job_is_signed_with_a_pin_and_says_over_what(client, released):
    assert released.status_code == 200, released.text
    said = released.json()
    assert (said["state"], said["released"]["by"]) == ("released", "Lee")
    lines = client.get(f"/api/jobs/{NEAT}/entries").json()["lines"]
    assert lines[0]["entry"]["kind"] == "release-signed"
    assert said["released"]["head"] == lines[0]["hash"]
    assert lines[0]["entry"]["head"] == lines[1]["hash"]
    assert "Nothing on the list" in said["released"]["statement"]
    assert client.get(f"/api/jobs/{NEAT}").json()["state"] == "released"


def test_a_wrong_pin_signs_nothing(client):
    send(client, neat()).raise_for_status()
    asked(client).raise_for_status()
    answer = signed(client, pin="2718")
    assert answer.status_code == 403
    assert "Nothing was signed" in answer.json()["detail"]
    assert client.get(f"/api/jobs/{NEAT}/release").json()["state"] == "asked"


def test_nothing_is_released_with_a_stop_open(client):
    send(client, half_finished()).raise_for_status()
    asked(client, JOB).raise_for_status()
    answer = signed(client, JOB)
    assert answer.status_code == 409
    assert "nothing is released with a stop open" in answer.json()["detail"]
    assert client.get(f"/api/jobs/{JOB}/release").json()["released"] is None


def test_it_is_not_signed_before_it_was_asked_for_and_the_question_answered(client):
    send(client, neat()).raise_for_status()
    assert "Nobody has asked for release yet" in signed(client).json()["detail"]
    asked(client, nothing_else_apart=False).raise_for_status()
    assert "record it, then ask again" in signed(client).json()["detail"]


def test_work_after_it_voids_the_release_for_all_to_see(client, released):
    later = entry("part-removed", 40, job=NEAT, part="float switch") | {"at": "2126-12-31T08:00:00+00:00"}
    send(client, [later]).raise_for_status()
    said = client.get(f"/api/jobs/{NEAT}/release").json()
    assert said["state"] == "no longer released"
    assert "Ana worked on it after the release" in said["released"]["no_longer"]
    heading = client.get(f"/api/jobs/{NEAT}/record").json()["heading"]
    assert "NO LONGER STANDS" in heading
    reopened = client.post(f"/api/jobs/{NEAT}/release/reopen", json={"reason": "the switch was loose"})
    assert reopened.json()["state"] == "open"


def test_a_release_is_taken_back_only_with_a_reason(client, released):
    address = f"/api/jobs/{NEAT}/release/withdraw"
    assert client.post(address, json={"reason": "no"}).status_code == 422
    assert client.post(address, json={"reason": "the wrong pump was looked at"}).json()["released"] is None
    assert client.post(address, json={"reason": "the wrong pump was looked at"}).status_code == 409


def test_the_paper_is_the_one_that_was_signed_byte_for_byte(client, released, tmp_path):
    address = f"/api/jobs/{NEAT}/record.pdf"
    first, again = client.get(address), client.get(address)
    assert first.headers["content-type"] == "application/pdf"
    assert first.content == again.content
    (tmp_path / "r.pdf").write_bytes(first.content)
    text = subprocess.run(
        ["pdftotext", "-layout", tmp_path / "r.pdf", "-"], capture_output=True, text=True
    ).stdout
    assert "Released with 0 open" in text
    assert released.json()["released"]["head"] in text.replace("\n", "")
    assert released.json()["released"]["public_key"] in text.replace("\n", "")
    letter = client.get(address, params={"paper": "letter"}).content
    assert letter != first.content
    short = client.get(address, params={"customer": True}).content
    assert short.startswith(b"%PDF") and short != first.content


def test_the_audit_says_who_signed_with_which_key(client, released):
    found = client.get(f"/api/jobs/{NEAT}/audit").json()
    assert found["whole"] and not found["faults"]
    assert any(released.json()["released"]["public_key"] in said for said in found["said"])


LACKING: list[tuple[dict[str, str], str]] = [
    ({"decision": "accept"}, "A stop is cured by work"),
    ({"decision": "defer"}, "needs a limit"),
    ({"decision": "defer", "limit": "2020-01-01T00:00:00Z"}, "lies in the past"),
    ({"decision": "defer", "limit": "2120-01-01T00:00:00Z"}, "needs a barrier"),
    ({"decision": "defer", "limit": "2120-01-01T00:00:00Z", "barrier": "tag"}, "needs a second name"),
    (
        {"decision": "defer", "limit": "2120-01-01T00:00:00Z", "barrier": "tag", "second": "lee"},
        "somebody else's",
    ),
    ({"decision": "rework", "reason": "no"}, "Write the reason"),
]


def test_the_leads_word_lacks_what_it_lacks_in_words(client):
    fill(client)
    subject = {"check": "hole-empty", "subject": "pump cover bolts", "reason": "a reason long enough"}
    said = [client.post(f"/api/jobs/{JOB}/word", json={**subject, **fields}) for fields, _ in LACKING]
    assert [answer.status_code for answer in said] == [422] * len(LACKING)
    assert [
        words
        for (_, words), answer in zip(LACKING, said, strict=True)
        if words not in answer.json()["detail"]
    ] == []


def test_a_sound_deferral_is_recorded_and_lifts_its_finding(client):
    fill(client)
    found = client.get(f"/api/jobs/{JOB}/findings").json()["findings"]
    one = next(f for f in found if f["severity"] == "stop" and f["waivable"])
    word = {
        "check": one["check"], "subject": one["subject"], "decision": "defer", "second": "Ida",
        "reason": "the bolts come on Friday", "limit": "2120-01-01T00:00:00Z", "barrier": "tag on the key",
    }  # fmt: skip
    answer = client.post(f"/api/jobs/{JOB}/word", json=word)
    assert answer.status_code == 200, answer.text
    keys = {f["key"] for f in client.get(f"/api/jobs/{JOB}/findings").json()["findings"]}
    assert one["key"] not in keys


def test_a_stranger_gets_no_record(stranger):
    for part in ("release", "record", "record.pdf", "audit"):
        assert stranger.get(f"/api/jobs/{NEAT}/{part}").status_code == 401


@pytest.mark.parametrize("part", ["release", "record", "record.txt", "record.pdf", "audit", "handover.pdf"])
def test_an_unknown_job_is_answered_in_one_sentence(client, part):
    answer = client.get(f"/api/jobs/nowhere/{part}")
    assert answer.status_code == 404
    assert "nowhere" in answer.json()["detail"]


def test_phones_that_wrote_in_a_job_are_told_with_when_they_were_last_heard_of(app, client):
    send(client, half_finished()).raise_for_status()
    (phone,) = client.get(f"/api/jobs/{JOB}/phones").json()
    assert (phone["device"], phone["by"], phone["quiet"]) == (f"phone of {JOB}", "Ana", False)
    rows = app.state.desk.wired.people.shop._rows.devices
    rows.saw(phone["device"], "2026-03-09T08:00:00+00:00")
    (phone,) = client.get(f"/api/jobs/{JOB}/phones").json()
    assert phone["quiet"] and phone["heard"].startswith("2026-03-09T08:00")
    assert client.get("/api/jobs/nobodys/phones").status_code == 404
