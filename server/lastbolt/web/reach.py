"""Routes about reaching this server from another phone: its address as a symbol, and its certificate."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from urllib.parse import urlsplit

from fastapi import APIRouter, FastAPI, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from pydantic import Field

from ..errors import NotFoundError
from ..labels.symbol import qr_modules
from .wire import Wire

router = APIRouter(tags=["reach"])
GUIDE = "/ca"
CERTIFICATE = "/ca/lastbolt.crt"


@dataclass(frozen=True, slots=True)
class Reach:
    """Where phones reach this server: the page, the guide by plain http, the authority (DER) and its mark."""

    address: str
    guide: str | None = None
    authority: bytes | None = None
    fingerprint: str | None = None

    @property
    def is_far(self) -> bool:
        """Tell whether other machines can reach it."""
        return (urlsplit(self.address).hostname or "") not in ("127.0.0.1", "localhost", "::1")

    @property
    def is_read_along(self) -> bool:
        """Tell whether others on the network can read what goes over it."""
        return self.is_far and self.address.startswith("http:")


class Symbol(Wire):
    """An address, and its QR symbol as rows of `1` (black) and `0`."""

    address: str
    rows: list[str]


class WaysIn(Wire):
    """How another phone gets on: the page's address, and the guide to the certificate where there is one."""

    page: Symbol
    guide: Symbol | None
    fingerprint: str | None = Field(description="SHA-256 of the authority's certificate, in groups")
    is_far: bool = Field(description="false: the server listens to this machine only")
    is_read_along: bool = Field(description="plain http: others on the network can read along")


@router.get("/api/ways-in", operation_id="getWaysIn")
def get_ways_in(request: Request) -> WaysIn:
    """Give what another phone is held before: the address of the page as a symbol."""
    reach = _reach(request)
    return WaysIn(
        page=symbol(reach.address),
        guide=symbol(reach.guide) if reach.guide else None,
        fingerprint=reach.fingerprint,
        is_far=reach.is_far,
        is_read_along=reach.is_read_along,
    )


@router.get(GUIDE, include_in_schema=False)
@router.get(GUIDE.upper(), include_in_schema=False)
def get_guide(request: Request) -> Response:
    """Give the page that leads through putting the shop's certificate on a phone; it is open to everybody."""
    reach = _reach(request)
    if reach.authority is None:
        raise NotFoundError("This server has no certificate of its own; `lastbolt serve --lan` makes one.")
    return HTMLResponse(guide_page(reach))


@router.get(CERTIFICATE, include_in_schema=False)
def get_certificate(request: Request) -> Response:
    """Give the authority's certificate, which is no secret."""
    reach = _reach(request)
    if reach.authority is None:
        raise NotFoundError("This server has no certificate of its own; `lastbolt serve --lan` makes one.")
    return Response(
        reach.authority,
        media_type="application/x-x509-ca-cert",
        headers={"content-disposition": 'attachment; filename="lastbolt.crt"'},
    )


def symbol(address: str) -> Symbol:
    """Draw an address in capitals, which makes the symbol coarse and quick to read."""
    rows = qr_modules(as_symbol_text(address), "Q")
    return Symbol(address=address, rows=["".join("1" if black else "0" for black in row) for row in rows])


def as_symbol_text(address: str) -> str:
    """Write an address in capitals, as a symbol holds it; paths that we draw are known in capitals too.

    >>> as_symbol_text("https://192.168.1.20:8443/")
    'HTTPS://192.168.1.20:8443'
    """
    return address.upper().rstrip("/")


def guide_app(reach: Reach) -> FastAPI:
    """Make the application of the plain-http port: the guide and the certificate, nothing of the shop."""
    app = FastAPI(openapi_url=None, docs_url=None, redoc_url=None)
    app.state.reach = reach
    app.add_api_route(GUIDE, get_guide, methods=["GET", "HEAD"])
    app.add_api_route(CERTIFICATE, get_certificate, methods=["GET", "HEAD"])

    def to_the_guide() -> Response:
        return RedirectResponse(GUIDE, 303)

    app.add_api_route("/{rest:path}", to_the_guide, methods=["GET", "HEAD"])
    return app


def guide_page(reach: Reach) -> str:
    """Write the guide; common practice of both systems, from memory and not tried on a phone of each."""
    mark = escape(reach.fingerprint or "")
    return _GUIDE.format(address=escape(reach.address), certificate=CERTIFICATE, mark=mark)


def _reach(request: Request) -> Reach:
    found: Reach | None = getattr(request.app.state, "reach", None)
    return found or Reach(str(request.base_url).rstrip("/"))


_GUIDE = """<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Lastbolt on this phone</title>
<h1>Lastbolt on this phone</h1>
<p>Once, this phone must learn to trust the shop's own server. That takes two minutes.
Then the camera stays live and the page opens without Wi-Fi.</p>
<p>First compare: the screen of the server shows the same mark of the certificate,
<strong>{mark}</strong>. If it is another one, stop and ask the lead.</p>
<h2>iPhone or iPad</h2>
<ol>
<li>In Safari, fetch <a href="{certificate}">the shop's certificate</a>; allow the download.</li>
<li>Settings, “Profile Downloaded”, Install.</li>
<li>Settings, General, About, Certificate Trust Settings: switch on “Lastbolt of this shop”.</li>
<li>Open <a href="{address}">{address}</a>, then Share, Add to Home Screen.
Work from that icon: it keeps its own store.</li>
</ol>
<h2>Android</h2>
<ol>
<li>Fetch <a href="{certificate}">the shop's certificate</a>.</li>
<li>Settings, Security, Encryption and credentials, Install a certificate, CA certificate;
choose the file “lastbolt.crt”. A screen lock is needed. Android then says that the network may be
monitored: it says so of every certificate that was not in the phone from the beginning.</li>
<li>Open <a href="{address}">{address}</a> in Chrome, then “Add to Home screen”.</li>
</ol>
<h2>Computer</h2>
<p>Put the certificate among the trusted authorities of the browser or the system.</p>
<h2>What it may vouch for</h2>
<p>Only names that end in .local or .lan, and addresses of private networks.
Its key lies on the server and nowhere else.</p>
<h2>Without the certificate</h2>
<p>A server started with --host and without --lan serves by plain http: anybody on the same network can
read along, PINs too. The browser gives no live camera there: the phone's own camera takes each photo and
the label is read from it. Keep the page open, for without the network it does not load again.
Clicking a warning away gives the camera, but no page without Wi-Fi.</p>
</html>
"""
