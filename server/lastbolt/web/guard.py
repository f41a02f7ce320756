"""What stands before every route: whose requests are served, how big they may be, what a browser may do."""

from __future__ import annotations

from ipaddress import ip_address
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ..said import said
from .problems import problem_response
from .wrong_address import opened_by_a_person, told_plainly

CONTENT_POLICY = "; ".join(
    (
        "default-src 'self'",
        "img-src 'self' blob: data:",
        "script-src 'self' 'wasm-unsafe-eval'",
        "worker-src 'self'",
        "style-src 'self'",
        "object-src 'none'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
        "form-action 'self'",
    )
)
HEADERS = {
    "content-security-policy": CONTENT_POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(self), microphone=(self), geolocation=()",
}
ELSEWHERE = said("Another site asked this, so it was not done. Open Lastbolt's own page and do it there.")
LARGEST_BODY = 256 * 1024 * 1024
READING = frozenset({"GET", "HEAD", "OPTIONS"})


class Guard:
    """ASGI middleware: refuses foreign hosts and origins, counts the body, adds the headers."""

    def __init__(self, app: ASGIApp, largest_body: int = LARGEST_BODY) -> None:
        self.app = app
        self.largest_body = largest_body

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).update(HEADERS)
            await send(message)

        refusal = refused(scope["method"], scope["scheme"], headers)
        if refusal:
            shown = opened_by_a_person(scope)
            answer = told_plainly(403, refusal) if shown else problem_response(403, refusal)
            await answer(scope, receive, send_guarded)
            return
        await self.app(scope, _counted(receive, self.largest_body), send_guarded)


def refused(method: str, scheme: str, headers: Headers) -> str | None:
    """Say why a request is not served, or None.

    A host that is a name on the public internet could be one that an attacker points here (DNS rebinding);
    an origin other than ours is another site writing in the reader's name.
    """
    host = headers.get("host", "")
    if not is_near(host):
        return said(
            "This server does not answer to the name {host}. Use the address that it printed at its start.",
            host=repr(host),
        )
    origin = headers.get("origin")
    if origin is not None and origin != f"{scheme}://{host}":
        return ELSEWHERE
    if method not in READING and headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return ELSEWHERE
    return None


def is_near(host: str) -> bool:
    """Tell whether a Host header names this machine or its network: an address, localhost, .local, .lan."""
    try:
        name = urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return False
    if name == "localhost" or name.endswith((".localhost", ".local", ".lan")):
        return True
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def _counted(receive: Receive, limit: int) -> Receive:
    """Refuse a body that grows beyond the limit, whatever its declared length.

    As much again is read and thrown away first, so that a sender a little above it hears the answer.
    """
    got = 0

    async def receive_counted() -> Message:
        nonlocal got
        message = await receive()
        got += len(message.get("body", b""))
        if got <= limit:
            return message
        while message.get("more_body", False) and got <= 2 * limit:
            message = await receive()
            got += len(message.get("body", b""))
        words = said("More than {size} came at once. Send less at a time.", size=_size(limit))
        raise HTTPException(413, words, headers={"connection": "close"})

    return receive_counted


def _size(n_bytes: int) -> str:
    return f"{n_bytes // 2**20} MiB" if n_bytes >= 2**20 else f"{n_bytes} bytes"
