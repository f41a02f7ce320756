"""The server run: by plain http for this machine, or by HTTPS for the network with a guide beside it."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass

import uvicorn
from fastapi import FastAPI

from .listening import listening_at, own_names
from .memory import share_heaps
from .reach import Reach, guide_app
from .server import Server

ANYWHERE = ("0.0.0.0", "::")
Say = Callable[[FastAPI, Reach], None]


@dataclass(frozen=True, slots=True)
class Place:
    """Where to listen; with a port for the guide the page itself goes by HTTPS."""

    host: str
    port: int
    guide_port: int | None = None


def run(app: FastAPI, place: Place, say: Say) -> None:
    """Serve until Ctrl-C; `say` is called once everything listens.

    Raises:
        BadInputError: an address is taken or not this machine's.
        StoreError: the certificate cannot be made.
    """
    share_heaps()
    with ExitStack() as open_sockets:
        listening = open_sockets.enter_context(listening_at(place.host, place.port))
        app.state.desk.wired.warm()
        port = listening.getsockname()[1]
        if place.guide_port is None:
            host = own_names()[0] if place.host in ANYWHERE else place.host
            app.state.reach = Reach(f"http://{host}:{port}")
            say(app, app.state.reach)
            Server(_config(app)).run(sockets=[listening])
            return
        guide = open_sockets.enter_context(listening_at(place.host, place.guide_port))
        asyncio.run(_both(app, (listening, guide), say))


async def _both(app: FastAPI, sockets: tuple[socket.socket, socket.socket], say: Say) -> None:
    """Serve the page by HTTPS and the guide by plain http, in one loop; the guide ends with the page."""
    listening, guide = sockets
    names = own_names()
    served = app.state.desk.wired.certificate(names)
    at = names[0]
    app.state.reach = Reach(
        f"https://{at}:{listening.getsockname()[1]}",
        f"http://{at}:{guide.getsockname()[1]}/ca",
        served.authority,
        served.fingerprint,
    )
    main = Server(_config(app, certificate=str(served.certificate), key=str(served.key)))
    beside = Quiet(_config(guide_app(app.state.reach)))
    main.beside = beside
    say(app, app.state.reach)
    await asyncio.gather(main.serve(sockets=[listening]), beside.serve(sockets=[guide]))


class Quiet(uvicorn.Server):
    """A server beside the main one, which leaves Ctrl-C to it."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take no signal."""
        yield


def _config(app: FastAPI, *, certificate: str | None = None, key: str | None = None) -> uvicorn.Config:
    """Configure one server; headers that a proxy would set are not believed, for there is none."""
    return uvicorn.Config(
        app, log_level="warning", proxy_headers=False, ssl_certfile=certificate, ssl_keyfile=key
    )
