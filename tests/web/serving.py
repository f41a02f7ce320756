import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import uvicorn

from lastbolt.web.server import Server

APPS: dict[str, Any] = {}
"""The application behind each address, for tests that sign somebody in on a browser."""


@contextmanager
def served(app: Any) -> Iterator[str]:
    """Serve an application on a free port of this machine for as long as the block lasts."""
    server = Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="critical", lifespan="on"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        assert thread.is_alive(), "the server did not start"
        thread.join(0.01)
    port = server.servers[0].sockets[0].getsockname()[1]
    address = f"http://127.0.0.1:{port}"
    APPS[address] = app
    try:
        yield address
    finally:
        server.should_exit = True
        thread.join(10)
