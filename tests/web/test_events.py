"""Server-sent events: the wire format is that of the HTML standard, section 9.2; read here by hand, line by line."""

import json
import threading
import time

import httpx
import pytest
from tests.web import shop
from tests.web.shop import JOB, NEAT, entry, half_finished, neat, send


def events(client, address):
    """Yield (name, data) pairs as they come in."""
    with client.stream("GET", address, timeout=20) as answer:
        assert answer.headers["content-type"].startswith("text/event-stream")
        assert "content-encoding" not in answer.headers
        name = ""
        for line in answer.iter_lines():
            if line.startswith("event: "):
                name = line[7:]
            elif line.startswith("data: "):
                yield name, json.loads(line[6:])


def test_a_listener_hears_of_another_phones_entry_within_two_seconds(client):
    send(client, half_finished())
    heard = events(client, f"/api/jobs/{JOB}/events")
    name, now = next(heard)
    assert (name, now["job"]) == ("now", JOB)
    sent = time.monotonic()
    answer = send(client, [entry("signed-off", 12)])
    name, changed = next(heard)
    took = time.monotonic() - sent
    assert (name, changed["job"]) == ("changed", JOB)
    assert changed["head"] == answer.json()["lines"][-1]["hash"] != now["head"]
    print(f"\nheard after {took:.3f} s (budget 2 s)")
    assert took < 2


def test_one_jobs_stream_is_silent_about_others_and_the_shops_tells_of_all(client):
    send(client, half_finished())
    send(client, neat())
    one, all_jobs = events(client, f"/api/jobs/{JOB}/events"), events(client, "/api/events")
    next(one)
    assert {next(all_jobs)[1]["job"], next(all_jobs)[1]["job"]} == {JOB, NEAT}
    send(client, [entry("signed-on", 2, job=NEAT)])
    send(client, [entry("signed-off", 12)])
    assert next(one)[1]["job"] == JOB
    assert [next(all_jobs)[1]["job"] for _ in range(2)] == [NEAT, JOB]


def test_entries_that_another_program_writes_are_told_too(tmp_path):
    from lastbolt.settings import Settings
    from lastbolt.wiring import wire

    with shop.open_shop(tmp_path) as (_, client):
        send(client, neat())
        heard = events(client, f"/api/jobs/{NEAT}/events")
        next(heard)
        beside = wire(Settings(data=tmp_path))
        beside.journal.append(NEAT, [entry("signed-on", 2, job=NEAT)], received="2026-03-09T08:02:00.000Z")
        beside.close()
        assert next(heard)[0] == "changed"


def test_thirty_listeners_cost_no_thread_each(client):
    send(client, neat())
    before = threading.active_count()
    limits = httpx.Limits(max_connections=40)
    with httpx.Client(base_url=client.base_url, limits=limits, auth=client.auth) as many:
        streams = [events(many, "/api/events") for _ in range(30)]
        for stream in streams:
            assert next(stream)[0] == "now"
        grown = threading.active_count() - before
        print(f"\n30 listeners: {grown} threads more")
        assert grown < 10
        for stream in streams:
            stream.close()


def test_a_stop_ends_the_streams_and_waits_for_nobody(tmp_path):
    with httpx.Client() as client:
        with shop.open_shop(tmp_path) as (address, writer):
            client.auth = writer.auth
            heard = events(client, f"{address}/api/events")
            send(writer, neat())
            next(heard)
            asked = time.monotonic()
        assert time.monotonic() - asked < 3
        assert list(heard) == []


def test_a_job_that_is_not_here_has_no_stream(client):
    answer = client.get("/api/jobs/nowhere/events")
    assert answer.status_code == 404 and "nowhere" in answer.json()["detail"]


@pytest.mark.parametrize("words", ["a\nb", "a\r\nevent: forged"])
def test_a_jobs_name_cannot_forge_an_event(words):
    from lastbolt.web.live import event

    assert event("changed", job=words, head="x").count(b"\n") == 3
