"""The built page: its files, its addresses, and what is said when it was not built."""

from __future__ import annotations

from pathlib import Path

from fastapi import APIRouter
from fastapi.responses import FileResponse, HTMLResponse, Response
from starlette.exceptions import HTTPException

STATIC = Path(__file__).parent / "static"
NOT_BUILT = """<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Lastbolt: the page is not built</title>
<h1>The page is not built</h1>
<p>This server runs and its API answers, but the page was left out when it was installed.</p>
<p>To build it, install Node 20.19 or newer, run
<code>python mobile_web/hatch_build.py build</code> in the checkout, and load this address again.</p>
<p>“lastbolt verify JOB” on the command line says what the page would say.</p>
</html>
"""
PAGES = (
    "/",
    *("/checks", "/checks/{rest:path}"),
    *("/desk", "/desk/{rest:path}"),
    *("/first", "/first/{rest:path}"),
    "/jobs/{rest:path}",
    "/labels/{rest:path}",
    "/phone",
    *("/who", "/who/{rest:path}"),
)
"""Addresses that the page shows something at."""
FOREVER = "public, max-age=31536000, immutable"
ASK_EACH_TIME = "no-cache"


def page_router(static: Path = STATIC) -> APIRouter:
    """Serve the page at every address that it shows something at, and its files beside it."""
    router = APIRouter(include_in_schema=False)

    def page() -> Response:
        return shell(static)

    def asset(name: str) -> Response:
        return _file(static / "assets", name, FOREVER)

    def plain_file(name: str) -> Response:
        return _file(static, name, ASK_EACH_TIME)

    for address in PAGES:
        router.add_api_route(address, page, methods=["GET", "HEAD"])
    router.add_api_route("/assets/{name}", asset, methods=["GET", "HEAD"])
    router.add_api_route("/{name}", plain_file, methods=["GET", "HEAD"])
    return router


def shell(static: Path, status: int = 200) -> Response:
    """Give the page itself, which finds its screen by the address; where it was not built, say how to."""
    index = static / "index.html"
    if not index.is_file():
        return HTMLResponse(NOT_BUILT, 503)
    return FileResponse(index, status, headers={"cache-control": ASK_EACH_TIME})


def _file(folder: Path, name: str, caching: str) -> Response:
    """Serve a file that lies directly in the folder; a name with a path in it is nobody's."""
    here = {path.name: path for path in folder.iterdir() if path.is_file()} if folder.is_dir() else {}
    if name not in here:
        raise HTTPException(404)
    return FileResponse(here[name], headers={"cache-control": caching})
