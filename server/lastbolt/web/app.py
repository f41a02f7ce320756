"""The web application: routes, page, guard and problems put together."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from anyio import to_thread
from fastapi import FastAPI
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware

from .. import __version__
from ..settings import Settings
from . import contract, page, problems
from .desk import Desk
from .door import Door
from .guard import Guard
from .live import Live, Nudging
from .wrong_address import WrongAddress

THREADS = 120
"""More than photos may wait in line (readers/pool.py), so that pages are answered meanwhile."""


def create_app(settings: Settings) -> FastAPI:
    """Make the application that serves one shop's data: API under /api, the page everywhere else.

    It holds the data folder until the server stops.

    Raises:
        StoreError: the folder cannot be used, or another server works on it.
    """
    desk = Desk(settings)
    live = Live(desk.wired.journal.heads)

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        to_thread.current_default_thread_limiter().total_tokens = THREADS
        live.start()
        yield
        live.stop()
        desk.close()

    app = FastAPI(
        lifespan=lifespan,
        title="Lastbolt",
        version=__version__,
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        middleware=[
            Middleware(Guard),
            Middleware(WrongAddress),
            Middleware(Door, sign_in=desk.wired.people.sign_in),
            Middleware(Nudging, live=live),
            Middleware(GZipMiddleware, minimum_size=1000),
        ],
    )
    app.state.desk, app.state.live = desk, live
    problems.install(app)
    contract.install(app)
    app.include_router(page.page_router())
    return app
