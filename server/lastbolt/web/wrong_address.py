"""Who opens an address that there is not gets the page, which says so in words, and no JSON."""

from __future__ import annotations

from html import escape
from pathlib import Path

from fastapi.responses import HTMLResponse
from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ..actions.paper_words import words_of
from ..said import in_words
from .page import STATIC, shell

NOT_HERE = frozenset({401, 404})
"""Nothing at this address, or nothing for a stranger: the page says which, in its own language."""


class WrongAddress:
    """ASGI middleware: a browser that opens an address outside the API gets the page, no problem.

    The status stays that of the problem; programs, which do not ask for HTML, get the problem itself.
    """

    def __init__(self, app: ASGIApp, static: Path = STATIC) -> None:
        self.app = app
        self._static = static

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or not opened_by_a_person(scope):
            await self.app(scope, receive, send)
            return
        turned_away: list[int] = []

        async def but_problems(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] in NOT_HERE:
                turned_away.append(message["status"])
            if not turned_away:
                await send(message)

        await self.app(scope, receive, but_problems)
        if turned_away:
            await shell(self._static, turned_away[0])(scope, receive, send)


PLAIN = """<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Lastbolt</title>
<h1>Lastbolt</h1>
<p>{english}</p>
<p lang="de">{german}</p>
</html>
"""


def told_plainly(status: int, sentence: str) -> HTMLResponse:
    """Say a refusal in both languages where the page itself cannot be served; nothing in it runs."""
    german = in_words(sentence, words_of("de"))
    return HTMLResponse(PLAIN.format(english=escape(sentence), german=escape(german)), status)


def opened_by_a_person(scope: Scope) -> bool:
    """Tell whether a request is a browser's own, for an address that it shows, and not for the API."""
    path = scope["path"]
    if path == "/api" or path.startswith("/api/") or scope["method"] not in ("GET", "HEAD"):
        return False
    return "text/html" in Headers(scope=scope).get("accept", "")
