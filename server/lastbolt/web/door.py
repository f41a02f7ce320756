"""What stands before every route: who is not signed in gets nothing, but for one list of addresses.

A route that is not on the list is closed, also one that is added tomorrow.
"""

from __future__ import annotations

import time
from typing import Annotated
from urllib.parse import urlsplit

from fastapi import Depends, Request
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.requests import cookie_parser
from starlette.routing import compile_path
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ..people.rights import Act, may
from ..people.sign_in import Asking, SignIn
from ..people.visit import Visit
from .guard import READING
from .page import PAGES
from .problems import problem_response

OPEN = frozenset(
    {
        *(("GET", address) for address in PAGES),
        ("GET", "/assets/{name}"),
        ("GET", "/{name}"),
        ("GET", "/L/{code}"),
        ("GET", "/l/{code}"),
        ("GET", "/ca"),
        ("GET", "/CA"),
        ("GET", "/ca/lastbolt.crt"),
        ("GET", "/api/session"),
        ("POST", "/api/session"),
        ("POST", "/api/first-lead"),
    }
)
"""What is answered without signing in: the page's files, the certificate, the ways in. HEAD goes with GET."""
FOR_EVERYBODY = "/api/session"
"""What readers may change too lies below this address: who holds the device, their own PIN."""
ENTRIES = compile_path("/api/jobs/{job:path}/entries")[0]
"""A device that was cut off may still hand over entries here; they are held for a lead."""
KNOWN_FOR_S = 2.0
SIGN_IN = "Sign in first: your name and your PIN."
PIN_AGAIN = "The PIN is needed again: it was given more than 12 hours ago, or you signed out."
READERS = "Readers look and change nothing; ask somebody who works on the job."
_OPEN = [(method, compile_path(address)[0]) for method, address in sorted(OPEN)]


class Door:
    """ASGI middleware: finds out who is at the device, and lets through what they may ask for."""

    def __init__(self, app: ASGIApp, sign_in: SignIn) -> None:
        self.app = app
        self._sign_in = sign_in
        self._known: dict[str, tuple[float, Visit]] = {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        token = token_in(scope)
        visit = await self._visit(token)
        scope.setdefault("state", {})["visit"] = visit
        method, path = scope["method"], scope["path"]
        refusal = refused(visit, method, path)
        if refusal is not None:
            status, words = refusal
            await problem_response(status, words)(scope, receive, send)
            return
        changes = method not in READING and path.startswith(("/api/session", "/api/people", "/api/devices"))
        try:
            await self.app(scope, receive, self._while_inside(token, send) if token else send)
        finally:
            if changes:
                self._known.clear()

    async def _visit(self, token: str | None) -> Visit | None:
        """Find the visit of a token; what is known lasts two seconds, so that a page asks the disk once."""
        if token is None:
            return None
        known = self._known.get(token)
        if known and time.monotonic() - known[0] < KNOWN_FOR_S:
            return known[1]
        visit = await run_in_threadpool(self._sign_in.visit, token)
        if len(self._known) > 1000:
            self._known.clear()
        if visit is not None:
            self._known[token] = (time.monotonic(), visit)
        return visit

    def _while_inside(self, token: str, send: Send) -> Send:
        """Stop a stream that is still open when its device is cut off."""
        streams = False

        async def watched(message: Message) -> None:
            nonlocal streams
            if message["type"] == "http.response.start":
                streams = (
                    Headers(raw=message["headers"]).get("content-type", "").startswith("text/event-stream")
                )
            elif streams and message.get("more_body"):
                visit = await self._visit(token)
                if visit is None or not visit.inside:
                    raise ConnectionAbortedError("the device was cut off")
            await send(message)

        return watched


def refused(visit: Visit | None, method: str, path: str) -> tuple[int, str] | None:
    """Say why a request goes no further, with its status, or None."""
    if is_open(method, path):
        return None
    if visit is None:
        return 401, SIGN_IN
    hands_over = method == "POST" and ENTRIES.fullmatch(path) is not None
    current = visit.current
    if current is None:
        return None if visit.cut and hands_over else (401, PIN_AGAIN)
    if method in READING or hands_over or path.startswith(FOR_EVERYBODY):
        return None
    return None if may(current.role, Act.WRITE) else (403, READERS)


def is_open(method: str, path: str) -> bool:
    """Tell whether an address is answered without signing in."""
    asked = "GET" if method == "HEAD" else method
    if path.startswith("/api/") and (asked, path) not in OPEN:
        return False
    return any(asked == each and pattern.fullmatch(path) for each, pattern in _OPEN)


def cookie_name(scope: Scope) -> str:
    """Name the cookie of one server: by its port, for cookies of one host are shared by all its ports.

    Over HTTPS the name binds it to this host and to encrypted requests (`__Host-`, RFC 6265bis).
    """
    port = urlsplit(f"//{Headers(scope=scope).get('host', '')}").port
    name = f"lastbolt-{port or 'own'}"
    return f"__Host-{name}" if scope["scheme"] == "https" else name


def token_in(scope: Scope) -> str | None:
    """Take the device's token out of a request's cookies."""
    cookies = cookie_parser(Headers(scope=scope).get("cookie", ""))
    return cookies.get(cookie_name(scope)) or None


def asking_from(request: Request, device: str | None = None) -> Asking:
    """Say where a try to sign in comes from."""
    address = request.client.host if request.client else "here"
    return Asking(token_in(request.scope), device, address, request.headers.get("user-agent", ""))


def _visit(request: Request) -> Visit:
    visit: Visit = request.state.visit
    return visit


AtDoor = Annotated[Visit, Depends(_visit)]
"""Who is at the device; there on every route that is not open."""
