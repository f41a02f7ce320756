import pytest
from tests.web.shop import JOB, entry, half_finished, send


@pytest.fixture
def job(client):
    send(client, half_finished())
    return client


@pytest.mark.parametrize("code", ["T0042E", "t-0042-e", "T-OO42-E"])
def test_a_bound_label_is_found_however_its_code_is_written(job, code):
    label = job.get(f"/api/labels/{code}").json()
    assert (label["job"], label["container"]) == (JOB, "T0042E")
    assert label["sentence"].endswith(".")


@pytest.mark.parametrize("address", ["/L/T0042E", "/l/t0042e", "/L/T-0042-E"])
def test_a_labels_printed_address_lands_on_the_page_of_what_bears_it(job, address):
    answer = job.get(address)
    assert (answer.status_code, answer.headers["location"]) == (303, f"/jobs/{JOB}/containers/T0042E")


def test_a_label_that_was_never_seen_gets_its_sentence_and_its_page(client):
    label = client.get("/api/labels/B0007W").json()
    assert (label["job"], label["container"]) == (None, None)
    assert "B-0007-" in label["sentence"]
    assert client.get("/L/B0007W").headers["location"].startswith("/labels/B0007")


def test_a_mistyped_code_is_told_of_its_slip(client):
    assert "slip" in client.get("/api/labels/T0043E").json()["sentence"]


def test_a_retired_label_is_bound_to_nothing(job):
    send(job, [entry("label-retired", 30, label="T0042E", reason="torn")])
    assert job.get("/api/labels/T0042E").json()["container"] is None


@pytest.mark.parametrize("code", ["x" * 400, "%3Cscript%3E", "..%2F.."])
def test_what_is_no_code_is_answered_in_words_and_leads_nowhere_else(client, code):
    label = client.get(f"/api/labels/{code}")
    assert label.status_code in (200, 404)
    landed = client.get(f"/L/{code}")
    assert landed.status_code in (303, 404)
    assert landed.headers.get("location", "/labels/").startswith("/labels/")
