from contextlib import contextmanager

import httpx
import pytest
from fastapi import FastAPI
from tests.web.serving import served

from lastbolt.web import problems
from lastbolt.web.page import page_router


@contextmanager
def page_in(folder):
    app = FastAPI()
    problems.install(app)
    app.include_router(page_router(folder))
    with served(app) as address, httpx.Client(base_url=address) as client:
        yield client


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    tmp_path = tmp_path_factory.mktemp("page") / "static"
    tmp_path.mkdir()
    (tmp_path / "assets").mkdir()
    (tmp_path / "index.html").write_text("<!doctype html><title>page</title>")
    (tmp_path / "bolt.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    (tmp_path / "assets" / "index-abc.js").write_text("export {}")
    (tmp_path.parent / "secret.txt").write_text("not yours")
    with page_in(tmp_path) as client:
        yield client


@pytest.mark.parametrize("address", ["/", "/jobs/x", "/jobs/a%2Fb/containers/t%201", "/labels/T0042E"])
def test_every_address_of_a_screen_gives_the_page(built, address):
    answer = built.get(address)
    assert (answer.status_code, answer.headers["cache-control"]) == (200, "no-cache")
    assert "<title>page</title>" in answer.text


def test_a_file_with_a_hash_in_its_name_is_kept_for_good(built):
    answer = built.get("/assets/index-abc.js")
    assert "immutable" in answer.headers["cache-control"]
    assert "javascript" in answer.headers["content-type"]


def test_a_plain_file_is_asked_for_each_time(built):
    answer = built.get("/bolt.svg")
    assert (answer.headers["cache-control"], answer.headers["content-type"]) == ("no-cache", "image/svg+xml")


@pytest.mark.parametrize(
    "address",
    ["/nothing.txt", "/assets/no.js", "/assets/..%2F..%2Fsecret.txt", "/..%2Fsecret.txt", "/assets/../index"],
)
def test_other_addresses_are_nobodys(built, address):
    answer = built.get(address)
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"
    assert "list of jobs" in answer.json()["detail"]


def test_without_a_built_page_the_server_says_how_to_build_it(tmp_path):
    with page_in(tmp_path / "nothing") as client:
        answer = client.get("/")
    assert answer.status_code == 503
    assert "hatch_build.py build" in answer.text
