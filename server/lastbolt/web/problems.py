"""Errors as HTTP problems (RFC 9457), in one table; never a traceback."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from http import HTTPStatus

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect

from ..errors import (
    BadInputError,
    ConflictError,
    DiskFullError,
    LastboltError,
    NotAllowedError,
    NotFoundError,
    NotSignedInError,
    StoreError,
    TemplateError,
    WaitError,
    told,
)
from ..said import said
from .forms import forms_of
from .wire import Problem

STATUS: tuple[tuple[type[LastboltError], int], ...] = (
    (NotFoundError, 404),
    (BadInputError, 422),
    (TemplateError, 422),
    (ConflictError, 409),
    (NotSignedInError, 401),
    (NotAllowedError, 403),
    (WaitError, 429),
    (DiskFullError, 507),
    (StoreError, 503),
    (LastboltError, 500),
)
IN_WORDS = {
    400: "What was sent cannot be read. Send it again.",
    404: "There is nothing at this address. The list of jobs is at /.",
    405: "This address cannot be used in that way.",
}


def problem_response(status: int, detail: str, headers: Mapping[str, str] | None = None) -> JSONResponse:
    """Give the answer for one problem: what happened, and a way out."""
    asked = {"www-authenticate": 'Session realm="Lastbolt"'} if status == 401 else {}
    phrase = HTTPStatus(status).phrase
    problem = Problem(title=phrase, status=status, detail=detail, forms=forms_of(detail))
    return JSONResponse(
        problem.model_dump(), status, {**asked, **(headers or {})}, media_type="application/problem+json"
    )


def status_of(error: LastboltError) -> int:
    """Look an error up in the table; the first row that fits counts."""
    return next(status for kind, status in STATUS if isinstance(error, kind))


def install(app: FastAPI) -> None:
    """Answer every error that a person can mend, every bad request and every unknown address as a problem."""
    app.add_exception_handler(LastboltError, _known)
    app.add_exception_handler(RequestValidationError, _unreadable)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(ClientDisconnect, _hung_up)
    app.add_exception_handler(Exception, _unforeseen)


def _known(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, LastboltError)
    wait = error.seconds if isinstance(error, WaitError) else None
    headers = {"retry-after": str(wait)} if wait is not None else None
    return problem_response(status_of(error), told(error), headers)


def _unreadable(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, RequestValidationError)
    return problem_response(
        422, said("This request cannot be read: {mistakes}.", mistakes=_mistakes(error.errors()))
    )


def _mistakes(errors: Sequence[object]) -> str:
    parts = []
    for error in errors[:5]:
        if isinstance(error, dict):
            where = ".".join(str(step) for step in error.get("loc", ()))
            parts.append(f"{where}: {error.get('msg', 'not as it should be')}")
    return "; ".join(parts)


def _http(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, HTTPException)
    phrase = HTTPStatus(error.status_code).phrase
    is_theirs = error.detail == phrase or error.status_code == 400
    detail = IN_WORDS.get(error.status_code, error.detail) if is_theirs else error.detail
    return problem_response(error.status_code, detail, error.headers)


def _hung_up(_: Request, __: Exception) -> JSONResponse:
    """The sender went away in the middle, as phones do: nobody hears this answer, and nothing is logged."""
    return problem_response(400, "The connection ended in the middle. Send it again.")


def _unforeseen(_: Request, __: Exception) -> JSONResponse:
    words = said(
        "The server met a fault of its own; its log says which. What was recorded before still stands."
    )
    return problem_response(500, words, {"connection": "close"})
