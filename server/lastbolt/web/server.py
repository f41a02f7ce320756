"""The HTTP server around the application, which ends its streams before it waits for its listeners."""

from __future__ import annotations

import socket

import uvicorn


class Server(uvicorn.Server):
    """Uvicorn, but for one thing: it first ends the streams of events, which never end themselves."""

    beside: uvicorn.Server | None = None
    """Another server in the same loop, which ends with this one."""

    async def serve(self, sockets: list[socket.socket] | None = None) -> None:
        """Serve until told to stop; what is beside it ends too."""
        await super().serve(sockets)
        if self.beside is not None:
            self.beside.should_exit = True

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop listening, end the streams, let running requests finish."""
        app = self.config.app
        live = getattr(getattr(app, "state", None), "live", None)
        if live is not None:
            live.stop()
        await super().shutdown(sockets)
