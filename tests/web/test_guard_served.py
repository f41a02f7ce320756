from pathlib import Path
from typing import Annotated, Any

import httpx
import pytest
from fastapi import Body, FastAPI, UploadFile
from starlette.middleware import Middleware
from tests.web.serving import served

from lastbolt.web import problems
from lastbolt.web.guard import CONTENT_POLICY, Guard

LIMIT = 2000


@pytest.fixture(scope="module")
def client():
    app = FastAPI(middleware=[Middleware(Guard, largest_body=LIMIT)])
    problems.install(app)

    @app.post("/words")
    def words(said: Annotated[list[Any], Body()]) -> int:
        return len(said)

    @app.post("/file")
    def file(photo: UploadFile) -> int:
        return photo.size or 0

    @app.get("/fault")
    def fault() -> None:
        raise RuntimeError("a secret of the machine " + str(Path.home()))

    with served(app) as address, httpx.Client(base_url=address) as client:
        yield client


def test_every_answer_carries_the_strict_headers(client):
    for answer in (
        client.post("/words", json=[]),
        client.get("/nowhere"),
        client.post("/words", content="{"),
    ):
        assert answer.headers["content-security-policy"] == CONTENT_POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"


def test_the_policy_lets_nothing_in_from_elsewhere():
    sources = [word for part in CONTENT_POLICY.split("; ") for word in part.split()[1:]]
    assert set(sources) == {"'self'", "'none'", "'wasm-unsafe-eval'", "blob:", "data:"}


def test_a_foreign_host_is_refused_as_a_problem(client):
    answer = client.post("/words", json=[], headers={"host": "bolts.example"})
    assert (answer.status_code, answer.headers["content-type"]) == (403, "application/problem+json")
    assert "bolts.example" in answer.json()["detail"]
    assert answer.headers["content-security-policy"] == CONTENT_POLICY


def test_a_write_from_another_site_is_refused(client):
    assert client.post("/words", json=[], headers={"origin": "https://bolts.example"}).status_code == 403


def test_a_body_within_the_limit_is_taken(client):
    assert client.post("/words", json=["x"] * 100).json() == 100


def test_a_body_above_the_limit_is_refused_in_words(client):
    answer = client.post("/words", json=["x" * LIMIT])
    assert answer.status_code == 413
    assert "Send less at a time." in answer.json()["detail"]


def test_a_body_that_hides_its_length_is_counted_as_it_comes(client):
    def pieces():
        for _ in range(30):
            yield b'"' + b"x" * 100 + b'"'

    assert client.post("/words", content=pieces()).status_code == 413


def test_a_photo_above_the_limit_is_refused_too(client):
    assert client.post("/file", files={"photo": b"x" * (LIMIT + 1)}).status_code == 413


def test_what_cannot_be_read_is_answered_in_one_sentence(client):
    answer = client.post("/words", content="{", headers={"content-type": "application/json"})
    assert answer.status_code == 422
    assert answer.json()["detail"].startswith("This request cannot be read: ")


def test_a_fault_of_ours_says_so_and_tells_nothing_of_the_machine(client):
    answer = client.get("/fault")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "fault of its own" in answer.json()["detail"]
