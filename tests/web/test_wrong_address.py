"""Whoever opens an address that there is not gets the page, which says so; a program gets the problem.

RFC 9110, section 12.5.1 (from memory): a browser that shows an address asks for text/html in Accept."""

import pytest
from tests.web.shop import JOB

A_BROWSER = {"accept": "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"}
NOBODYS = ("/nothing.txt", "/jbos/keel", "/assets/gone-1a2b.js", "/desks/board/x", "/ca/other.crt", "/apis")


@pytest.mark.parametrize("address", NOBODYS)
@pytest.mark.parametrize("method", ["GET", "HEAD"])
def test_a_person_gets_the_page_with_the_status_of_nothing_there(filled, address, method):
    shell = filled.get("/", headers=A_BROWSER)
    answer = filled.request(method, address, headers=A_BROWSER)
    assert (answer.status_code, answer.headers["content-type"]) == (404, shell.headers["content-type"])
    assert answer.content == (shell.content if method == "GET" else b"")
    assert answer.headers["content-security-policy"] == shell.headers["content-security-policy"]
    assert answer.headers["cache-control"] == "no-cache" and JOB not in answer.text


def test_a_stranger_gets_the_page_too_and_signs_in_on_it(stranger):
    answer = stranger.get("/jbos/keel", headers=A_BROWSER)
    assert (answer.status_code, answer.headers["content-type"]) == (401, "text/html; charset=utf-8")
    assert answer.content == stranger.get("/", headers=A_BROWSER).content


@pytest.mark.parametrize("address", ["/api/nowhere", "/api/jobs/nowhere", "/api", "/api/photos/x/preview"])
def test_below_api_everybody_gets_a_problem(filled, address):
    answer = filled.get(address, headers=A_BROWSER)
    assert answer.status_code in (404, 422)
    assert answer.headers["content-type"] == "application/problem+json" and answer.json()["detail"]


@pytest.mark.parametrize("address", NOBODYS)
def test_a_program_gets_a_problem_everywhere(filled, address):
    answer = filled.get(address)
    assert (answer.status_code, answer.headers["content-type"]) == (404, "application/problem+json")
    assert "list of jobs" in answer.json()["detail"]


def test_what_is_sent_to_no_address_stays_a_problem(filled):
    answer = filled.post("/jbos/keel", headers=A_BROWSER)
    assert (answer.status_code, answer.headers["content-type"]) == (404, "application/problem+json")


@pytest.mark.parametrize("host", ["workshop-pc:8000", "<script>alert(1)</script>"])
def test_a_name_that_is_not_answered_to_is_said_in_words_in_both_languages(filled, host):
    answer = filled.get("/", headers={**A_BROWSER, "host": host})
    assert (answer.status_code, answer.headers["content-type"]) == (403, "text/html; charset=utf-8")
    assert "Use the address that it printed at its start." in answer.text
    assert "Die Adresse benutzen, die er bei seinem Start gedruckt hat." in answer.text
    assert "<script" not in answer.text and JOB not in answer.text
    assert answer.headers["content-security-policy"]


def test_a_program_that_uses_another_name_gets_a_problem(filled):
    answer = filled.get("/", headers={"host": "workshop-pc:8000"})
    assert (answer.status_code, answer.headers["content-type"]) == (403, "application/problem+json")
