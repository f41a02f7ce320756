import json

import pytest

from lastbolt import errors
from lastbolt.web.problems import problem_response, status_of


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (errors.BadInputError("x"), 422),
        (errors.NotFoundError("x"), 404),
        (errors.ConflictError("x"), 409),
        (errors.StoreError("x"), 503),
        (errors.TemplateError(["x"]), 422),
        (errors.LastboltError("x"), 500),
    ],
)
def test_each_error_has_its_status(error, status):
    assert status_of(error) == status


def test_every_error_of_ours_is_in_the_table():
    children = [
        each for each in vars(errors).values() if isinstance(each, type) and issubclass(each, Exception)
    ]
    for child in children:
        error = child(["x"]) if child is errors.TemplateError else child("x")
        assert 400 <= status_of(error) < 600


def test_a_problem_is_written_as_rfc_9457_says():
    """RFC 9457, section 3: type, title, status, detail; media type application/problem+json (from memory)."""
    answer = problem_response(404, "There is nothing at this address. The list of jobs is at /.")
    assert answer.media_type == "application/problem+json"
    assert json.loads(bytes(answer.body)) == {
        "type": "about:blank",
        "title": "Not Found",
        "status": 404,
        "detail": "There is nothing at this address. The list of jobs is at /.",
        "forms": [],
    }


def test_a_problem_brings_the_form_of_its_sentence_for_another_language(client):
    """RFC 9457, section 3.2, lets a problem bring members of its own (from memory)."""
    answer = client.get("/api/jobs/nowhere")
    form = "there is no job {job} here; look at the list of jobs"
    assert (answer.status_code, answer.json()["detail"]) == (404, form.format(job="'nowhere'"))
    assert answer.json()["forms"] == [{"form": form, "parts": {"job": "'nowhere'"}}]
