from concurrent.futures import ThreadPoolExecutor

import pytest
from tests.web.shop import JOB, entry, half_finished, send

from lastbolt.journal import ENTRY


def lines_of(client, job=JOB, **query):
    return client.get(f"/api/jobs/{job}/entries", params=query).json()


def test_a_sent_entry_is_in_the_journal_as_it_came(client):
    sent = entry("job-opened", 1, machine="Winch", title="New brake", a_field_of_next_year=[1, {"x": "y"}])
    answer = send(client, [sent])
    assert answer.status_code == 200
    (line,) = lines_of(client)["lines"]
    assert line["entry"] == sent
    assert line == answer.json()["lines"][0]
    assert (line["position"], len(line["hash"])) == (1, 64)


def test_sending_twice_keeps_one_and_answers_the_same(client):
    sent = half_finished()
    first, again = send(client, sent), send(client, sent)
    assert again.status_code == 200
    assert first.json()["lines"] == again.json()["lines"]
    assert lines_of(client)["total"] == len(sent)


def test_an_id_that_comes_back_with_other_content_is_a_conflict(client):
    sent = half_finished()
    send(client, sent)
    other = {**sent[-1], "place": "elsewhere"}
    answer = send(client, [other])
    assert (answer.status_code, answer.headers["content-type"]) == (409, "application/problem+json")
    assert lines_of(client)["total"] == len(sent)


def test_one_unsound_entry_keeps_all_of_its_parcel_out_and_is_named(client):
    sound = entry("job-opened", 1, machine="Winch", title="New brake")
    answer = send(client, [sound, entry("fasteners-removed", 2, set="lid", n=0)])
    assert answer.status_code == 422
    assert "n" in answer.json()["detail"]
    assert "fasteners-removed" in answer.json()["detail"]
    assert client.get("/api/jobs").json() == []


def test_an_entry_of_another_job_than_the_address_says_is_refused(client):
    answer = client.post("/api/jobs/other/entries", json=[entry("signed-on", 1)])
    assert answer.status_code == 422
    assert JOB in answer.json()["detail"]
    assert client.get("/api/jobs").json() == []


@pytest.mark.parametrize("body", [[], {}, "x", [1], None])
def test_what_is_no_list_of_entries_is_refused_in_words(client, body):
    answer = client.post(f"/api/jobs/{JOB}/entries", json=body)
    assert answer.status_code == 422
    assert answer.json()["detail"].startswith("This request cannot be read: ")


def test_a_surprising_entry_is_kept_and_argued_about(client):
    send(client, half_finished())
    seven = entry("fasteners-fitted", 30, set="pump cover bolts", n=7, source="T0042E")
    answer = send(client, [seven]).json()
    assert answer["lines"][0]["entry"] == seven
    assert "more-than-logged" in {finding["check"] for finding in answer["came_up"]}


def test_the_answer_names_what_came_up_and_what_went_away(client):
    opened, *rest = half_finished()
    first = send(client, [opened]).json()
    assert (first["came_up"], first["went_away"]) == ([], [])
    came_up = {finding["key"] for finding in send(client, rest).json()["came_up"]}
    assert "part-not-back-on/pump cover" in came_up
    answer = send(client, [entry("part-fitted", 40, part="pump cover")]).json()
    assert "part-not-back-on/pump cover" in answer["went_away"]


def test_the_time_line_comes_in_pages_from_the_newest_back(client):
    sent = half_finished()
    send(client, sent)
    newest = lines_of(client, limit=4)
    assert [line["entry"]["seq"] for line in newest["lines"]] == [11, 10, 9, 8]
    assert (newest["total"], newest["before"]) == (11, 8)
    oldest = lines_of(client, limit=500, before=newest["before"])
    assert [line["entry"]["seq"] for line in oldest["lines"]] == [7, 6, 5, 4, 3, 2, 1]
    assert oldest["before"] is None


def test_the_schema_is_that_of_the_journal(client):
    assert client.get("/api/schema").json() == ENTRY.json_schema()


def test_phones_that_send_the_same_entries_at_once_leave_each_entry_once(client):
    sent = half_finished()
    with ThreadPoolExecutor(8) as phones:
        answers = list(phones.map(lambda _: send(client, sent), range(8)))
    assert {answer.status_code for answer in answers} == {200}
    hashes = [[line["hash"] for line in answer.json()["lines"]] for answer in answers]
    assert all(each == hashes[0] for each in hashes)
    assert lines_of(client)["total"] == len(sent)
